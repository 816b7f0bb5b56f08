import { expect, type Locator, type Page, test } from '@playwright/test'
import { inspect } from './job/inspect.ts'
import { openExample, watchPage } from './job/page-watch.ts'
import { button } from './job/person.ts'

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
  await page.setViewportSize({ width: 390, height: 844 })
  await inspect(page, { name: 'fitted, on a phone' })
  expect(told()).toEqual([])
})

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
