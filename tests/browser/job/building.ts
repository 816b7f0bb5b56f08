import { expect, type Page } from '@playwright/test'
import { button, choice, dialogOf, field, go } from './person.ts'

/** Three floors, two risers, one heater, hot water going round, chloraminated supply: two minutes with the water person. */
export async function describeBuilding(page: Page): Promise<void> {
  const main = await go(page, 'Building')
  await button(main, 'Describe the building').click()
  await expect(main.getByText(/^Still to say:/)).toBeVisible()
  await field(main, 'Floors').fill('3')
  await field(main, 'Risers').fill('A, B')
  await choice(main, { of: 'Plant (heaters, tanks)', name: 'at the bottom' }).check()
  await field(main, 'Shower').fill('1')
  await field(main, 'Basin tap').fill('1')
  await button(main, 'Add a heater').click()
  const heater = main.getByRole('group', { name: 'Heater 1' })
  await field(heater, 'Volume').fill('500')
  await field(heater, 'Set to').fill('60')
  await choice(main, { of: 'Does hot water go round?', name: 'yes, a return on each riser' }).check()
  await choice(main, { of: 'Is it mixed down?', name: 'no' }).check()
  await field(main, 'Disinfectant of the supply').selectOption('chloramine')
  await field(main, 'Residual').fill('1,2')
  await choice(main, { of: 'Cold tank', name: 'none' }).check()
  await expect(main.getByRole('status').filter({ hasText: '12 outlets on 3 floors and 2 risers' })).toBeVisible()
  await button(main, 'Describe the building').click()
  await expect(main.getByRole('tab', { name: 'As described' })).toBeVisible()
}

/** What wets air: one found, one not there, the rest not looked at. */
export async function sweepDevices(page: Page): Promise<void> {
  const main = page.getByRole('main')
  await main.getByRole('tab', { name: 'What wets air' }).click()
  await button(main, 'Cooling tower or evaporative condenser: not there').click()
  await button(main, 'Drinking fountain or water cooler: found').click()
  const dialog = page.getByRole('dialog')
  await field(dialog, 'Place').fill('Lobby, beside the stairs')
  await button(dialog, 'Record').click()
  await expect(dialog).toBeHidden()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/^1 found, \d+ of \d+ not looked for yet$/)
  await expect(main.getByRole('listitem').filter({ hasText: 'Cooling tower' })).toContainText('not there')
}

/** Now that the drawing has the shower, the case that used it is tied to it, by keyboard. */
export async function tieCaseToOutlet(page: Page): Promise<void> {
  const main = await go(page, 'Cases')
  await button(main, 'Q-01').click()
  await button(main, 'Add a place').click()
  const dialog = dialogOf(page, 'Where was Q-01?')
  await field(dialog, 'Place').pressSequentially('201 sh')
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('Enter')
  await expect(field(dialog, 'Place')).toHaveValue('201 shower')
  await field(dialog, 'Kind of exposure').selectOption('shower')
  await field(dialog, 'From').fill('2026-02-11')
  await button(dialog, 'Record').click()
  await expect(dialog).toBeHidden()
}
