import { expect, type Page } from '@playwright/test'
import { entriesOf } from './entries.ts'
import { button, dialogOf, field, go } from './person.ts'

export const CONCLUSION = 'The hot water is colonised where it stands cooler than it should.'
const WOULD_CHANGE = 'A genome comparison that shows another strain.'

/** Whose rules apply is said, and the results fall into its bands. */
export async function chooseCriteria(page: Page): Promise<void> {
  const main = await go(page, 'Findings')
  const criteria = main.getByRole('region', { name: 'Criteria', exact: true })
  await button(criteria, /^Choose (criteria|others)$/).click()
  const dialog = dialogOf(page, 'Whose criteria apply?')
  await dialog.getByRole('radio', { name: /^US CDC routine testing figure/ }).check()
  await field(dialog, 'Why this set').fill('Agreed with the authority on the first day.')
  await button(dialog, 'Use this set').click()
  await expect(dialog).toBeHidden()
  await expect(criteria).toContainText('US CDC routine testing figure')
  await expect(criteria.getByRole('table')).toContainText('Calls for')
}

/** The diagram tells where it was found; pressing the place shows its samples beside it. */
export async function seePositives(page: Page): Promise<readonly string[]> {
  const main = page.getByRole('main')
  const positive = (await entriesOf(page, 'result.reported')).filter(({ body }) => body.value.kind === 'count')
  expect(positive.length).toBeGreaterThan(0)
  const labels = positive.map(({ body }) => body.label)
  const place = main.getByRole('button', { name: /4\.5 CFU\/mL by culture/ }).first()
  await place.press('Enter')
  const shown = page.getByRole('region', { name: /samples?$/ })
  await expect(shown.getByRole('row').filter({ hasText: '4.5 CFU/mL' })).toBeVisible()
  return labels
}

/** A conclusion is refused without evidence, and written with it, with what would change it. */
export async function conclude(page: Page, label: string): Promise<void> {
  const main = page.getByRole('main')
  await button(main, 'Write a conclusion').click()
  const dialog = dialogOf(page, 'Write a conclusion')
  await field(dialog, 'Conclusion').fill(CONCLUSION)
  await dialog.getByRole('radio', { name: 'strong' }).check()
  await button(dialog, 'Record').click()
  await expect(dialog.getByRole('alert')).toContainText('evidence')
  await field(dialog, 'Attach evidence').fill(label)
  await page.getByRole('option').filter({ hasText: label }).first().click()
  await expect(dialog.getByRole('list', { name: 'Evidence attached' })).toContainText(label)
  await field(dialog, 'What would change it').fill(WOULD_CHANGE)
  await button(dialog, 'Record').click()
  await expect(dialog).toBeHidden()
  const written = main.getByRole('article').filter({ hasText: CONCLUSION })
  await expect(written).toContainText(label)
  await expect(written).toContainText(WOULD_CHANGE)
}
