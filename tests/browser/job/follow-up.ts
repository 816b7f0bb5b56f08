import { readFile } from 'node:fs/promises'
import { expect, type Page } from '@playwright/test'
import { entriesOf } from './entries.ts'
import { download } from './papers.ts'
import { button, dialogOf, field, go } from './person.ts'

export const OVERRIDE = 'The building is taken down; nobody will use its water again.'

/** Follow-up starts from the day the measure was completed, and the rounds of the rule are set out. */
export async function startFollowUp(page: Page): Promise<void> {
  const main = await go(page, 'Follow-up')
  await button(main, 'Start follow-up').click()
  const dialog = dialogOf(page, 'Start follow-up')
  const completed = (await entriesOf(page, 'measure.completed')).at(-1)
  await expect(field(dialog, 'Remediation completed on')).toHaveValue(completed?.body.completedOn ?? '')
  await dialog.getByRole('radio', { name: /^United States:/ }).check()
  await expect(dialog).toContainText(/\d+ rounds, the first due on \d{4}-\d\d-\d\d/)
  await button(dialog, 'Start').click()
  await expect(dialog).toBeHidden()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/^Round 1 is due /)
  await expect(main.getByRole('img', { name: /^Round 1/ })).toBeVisible()
}

/** The rounds in one's own calendar: a day event for each, beginning on the day the screen says. */
export async function takeCalendar(page: Page): Promise<void> {
  const main = page.getByRole('main')
  const rows = main.getByRole('table', { name: /rounds of the rule$/ }).getByRole('row')
  const due = (await rows.allInnerTexts()).flatMap((text) => /\d{4}-\d\d-\d\d/.exec(text)?.[0] ?? [])
  expect(due.length).toBeGreaterThan(1)
  const { name, path } = await download(page, button(page, 'Download the calendar (iCalendar)'))
  expect(name).toMatch(/-follow-up\.ics$/)
  // RFC 5545, section 3.1: lines end in CRLF, long ones go on after a space
  const lines = (await readFile(path, 'utf8')).replaceAll(/\r\n[ \t]/g, '').split('\r\n')
  expect(lines[0]).toBe('BEGIN:VCALENDAR')
  const days = lines.flatMap((line) => /^DTSTART;VALUE=DATE:(\d{8})$/.exec(line)?.[1] ?? [])
  for (const day of due) expect(days).toContain(day.replaceAll('-', ''))
}

/** Closing against the rule is refused without the reason, and says it with one. */
export async function closeAgainstRule(page: Page): Promise<void> {
  await button(page, 'Close the investigation').click()
  const dialog = dialogOf(page, 'Close the investigation')
  await expect(dialog).toContainText('The rule is not met')
  await button(dialog, 'Close although the rule is not met').click()
  await expect(dialog.getByRole('alert')).toContainText('why it is closed although the rule is not met')
  await field(dialog, 'Why it is closed all the same').fill(OVERRIDE)
  await button(dialog, 'Close although the rule is not met').click()
  await expect(dialog).toBeHidden()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/^Closed on \d{4}-\d\d-\d\d$/)
  await expect(page.getByRole('main')).toContainText(`Closed although the rule was not met: ${OVERRIDE}`)
}
