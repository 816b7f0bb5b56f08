import { expect, type Page } from '@playwright/test'
import { button, dialogOf, field, go } from './person.ts'

export const REASON = 'Two people with Legionnaires’ disease slept on riser A.'

/** The first call: as little as is known. Gives back the id. */
export async function startInvestigation(page: Page, at = ''): Promise<string> {
  await page.goto(`${at}/`)
  await button(page, 'Start an investigation').click()
  const dialog = dialogOf(page, 'Start an investigation')
  await expect(field(dialog, 'Building or place')).toBeFocused()
  await page.keyboard.type('Quay House')
  await page.keyboard.press('Tab')
  await page.keyboard.type('Quillhaven')
  await field(dialog, 'Setting').selectOption('hotel')
  await field(dialog, 'Opened on').fill('2026-03-02')
  await field(dialog, 'Why you were called').fill(REASON)
  await field(dialog, 'Who is writing').fill('R. Investigator')
  await button(dialog, 'Start').click()
  await expect(page.getByRole('heading', { level: 1, name: 'Quay House, Quillhaven' })).toBeVisible()
  return new URL(page.url()).pathname.split('/')[2] ?? ''
}

/** The last row's date stands the wrong way round. */
const PASTED = [
  'code\tonset\tclassification\tplace\tkind\tfrom\tto',
  'Q-01\t2026-02-20\tconfirmed\tRoom 2A\tstay\t2026-02-10\t2026-02-18',
  'Q-02\t2026-02-22\tprobable\tRoom 2A\tstay\t2026-02-12\t2026-02-19',
  'Q-03\t24/02/2026\tsuspected\tRoom 3B\tstay\t2026-02-14\t2026-02-19',
]

/** One case is typed, the others pasted; a name and a date of unclear order are refused; the places they share come out. */
export async function recordCases(page: Page): Promise<void> {
  const main = await go(page, 'Cases')
  await button(main, 'Record a case').click()
  const typing = dialogOf(page, 'Record a case')
  await field(typing, 'Code').fill('Anna')
  await field(typing, 'Onset').fill('2026-02-20')
  await typing.getByLabel('confirmed', { exact: true }).check()
  await button(typing, 'Record').click()
  await expect(typing.getByRole('alert')).toContainText('never a name')
  await field(typing, 'Code').fill('Q-01')
  await button(typing, 'Record').click()
  await expect(typing).toBeHidden()

  await button(main, 'Paste from a spreadsheet').click()
  const pasting = dialogOf(page, 'Paste cases from a spreadsheet')
  const rows = field(pasting, 'Rows')
  await rows.fill(PASTED.join('\n'))
  await expect(pasting.getByRole('alert')).toContainText('row 4, onset')
  await expect(button(pasting, /^Record/)).toBeDisabled()
  await rows.fill(PASTED.join('\n').replace('24/02/2026', '2026-02-24'))
  await button(pasting, 'Record 2 cases, 3 exposures').click()
  await expect(pasting).toBeHidden()

  await expect(
    page.getByRole('heading', { level: 1, name: 'Room 2A lies in the window of 2 of 3 cases' }),
  ).toBeVisible()
  await expect(main.getByRole('img', { name: /^Timeline from/ })).toHaveAccessibleName(/Q-03, onset 2026-02-24/)
}
