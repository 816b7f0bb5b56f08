import { expect, type Locator, type Page, test } from '@playwright/test'
import { entriesOf } from './job/entries.ts'
import { inspect } from './job/inspect.ts'
import { openExample, watchPage } from './job/page-watch.ts'
import { button, dialogOf, field } from './job/person.ts'

// The prediction fitted to what the worked example read: stopped on the way, then run to its end, in the units of the reader.

const FITTED_MS = 240_000

test.describe.configure({ timeout: 400_000 })

test('a round’s readings are fitted, beside what was predicted; it can be stopped', async ({ page }) => {
  const told = watchPage(page)
  const part = await fitPart(page)
  await part.getByRole('combobox', { name: 'Readings of' }).selectOption('Round R2')
  await button(part, 'Fit to the readings').click()
  await expect(part.getByRole('progressbar')).toBeVisible()
  await button(part, 'Stop').click()
  await expect(part).toContainText('Stopped before it was done.')
  await button(part, 'Fit to the readings').click()
  await expect(button(part, 'Fit again')).toBeVisible({ timeout: FITTED_MS })
  const inputs = part.getByRole('region', { name: 'What nobody knows for sure, with 90 % ranges' })
  await expect(inputs.getByRole('row', { name: /^Set point of Heater 1/ })).toContainText('60 °C (56.7 to 63.3)')
  const readings = part.getByRole('region', { name: /^\d+ readings beside the prediction$/ })
  await expect(readings.getByRole('row').nth(1)).toContainText(/°C|mg\/L/)
  await inspect(page, { name: 'fitted' })
  await takenOver(page, part)
  await page.setViewportSize({ width: 390, height: 844 })
  await inspect(page, { name: 'fitted, on a phone' })
  await withdrawn(page, part)
  expect(told()).toEqual([])
})

/** Asked what it changes, left and asked again by keyboard, written, and taken by the next prediction. */
async function takenOver(page: Page, part: Locator): Promise<void> {
  const take = button(part, 'Take the fitted values over')
  await take.focus()
  await page.keyboard.press('Enter')
  const asked = dialogOf(page, 'Take the values fitted to round R2 over?')
  await expect(asked).toContainText('The description stays as it is.')
  await expect(asked).toContainText(/Set point of Heater 1\s*[\d.]+ °C \([\d.]+ to [\d.]+\) instead of 60 °C/)
  await inspect(page, { name: 'taking over' })
  await page.setViewportSize({ width: 390, height: 844 })
  await inspect(page, { name: 'taking over, on a phone' })
  await page.setViewportSize({ width: 1440, height: 900 })
  await button(asked, 'Cancel').click()
  await expect(asked).toBeHidden()
  await expect(take).toBeFocused()
  expect(await entriesOf(page, 'fit.accepted')).toEqual([])
  await page.keyboard.press('Enter')
  await field(asked, 'Note').fill('all returns were seen running')
  await button(asked, 'Put into the record').click()
  await field(dialogOf(page, 'Who is writing?'), 'Your name').fill('S. Sampler')
  await page.keyboard.press('Enter')
  await expect(asked).toBeHidden()
  await expect(part).toContainText(/In the record, and taken by predictions: \d+ values fitted to round R2\./)
  const [entry] = await entriesOf(page, 'fit.accepted')
  expect(entry?.body).toMatchObject({ round: 'R2', level: 0.9, note: 'all returns were seen running' })
  const main = page.locator('main')
  await button(main, 'Work it out again').or(button(main, 'Work out the water')).click()
  await expect(main).toContainText(/With \d+ values fitted to the readings of round R2 in place of those described\./, {
    timeout: 90_000,
  })
}

/** The example is shared: what was taken over is taken back, and the prediction of the record holds again. */
async function withdrawn(page: Page, part: Locator): Promise<void> {
  await button(part, /^Withdraw the \d+ values/).click()
  const asked = page.getByRole('dialog')
  await field(asked, 'Reason').fill('only tried')
  await button(asked, 'Withdraw').click()
  await expect(asked).toBeHidden()
  await expect(part).not.toContainText('In the record')
}

/** The part of the predicted water that fits, of the worked example. */
async function fitPart(page: Page): Promise<Locator> {
  const address = await openExample(page)
  await page.goto(`${address}/building`)
  await page.getByRole('tab', { name: 'Predicted' }).click()
  const main = page.locator('main')
  const part = main.getByRole('region', { name: 'Fit to readings', exact: true })
  await expect(part.or(button(main, 'Work out the water'))).toBeVisible({ timeout: 30_000 })
  if (!(await part.isVisible())) await button(main, 'Work out the water').click()
  await expect(part).toBeVisible({ timeout: 90_000 })
  return part
}
