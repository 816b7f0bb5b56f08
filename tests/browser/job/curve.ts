import { expect, type Locator, type Page } from '@playwright/test'
import { button, field } from './person.ts'
import { press } from './stop.ts'

const EVERY = '00:10'

/** A temperature read every ten seconds while the tap runs. */
export async function takeCurve(page: Page, visit: Locator): Promise<void> {
  await button(visit, 'Open the tap, start the clock').click()
  for (const shown of ['26,2', '44', '51.9']) await addReading(page, { visit, shown })
}

async function addReading(page: Page, { visit, shown }: { visit: Locator; shown: string }): Promise<void> {
  await field(visit, 'Probe shows').fill(shown)
  await field(visit, 'Probe shows').press('Tab')
  await button(visit, `Add ${shown.replace(',', '.')} °C`).click()
  await expect(field(visit, 'Probe shows')).toHaveValue('')
  await page.clock.fastForward(EVERY)
}

/** The page is loaded again with a value half typed: curve, clock and value are there, and the curve goes on until it is steady. */
export async function keepsCurveThroughReload(page: Page, visit: Locator): Promise<void> {
  await field(visit, 'Probe shows').fill('53,')
  await page.reload()
  await expect(field(visit, 'Probe shows')).toHaveValue('53,')
  await expect(visit.getByRole('timer')).toContainText(/^[34]\d s/)
  await field(visit, 'Probe shows').press('End')
  await page.keyboard.type('1')
  await button(visit, 'Add 53.1 °C').click()
  const still = visit.getByRole('button', { name: /^Still 53\.1/ })
  const keep = button(visit, 'Keep 53.1 °C')
  for (let more = 0; more < 12 && (await still.or(keep).first().innerText()).startsWith('Still'); more += 1) {
    await page.clock.fastForward(EVERY)
    await still.click()
  }
  await expect(visit.getByText(/^steady for/)).toBeVisible()
  await press(visit, keep)
}
