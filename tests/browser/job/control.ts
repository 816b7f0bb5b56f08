import { expect, type Locator, type Page } from '@playwright/test'
import { entriesOf } from './entries.ts'
import { button, dialogOf, field, go } from './person.ts'

const WATER_L = '1000'

/** A shock chlorination is ordered by a published target for a few outlets, with the product reckoned for it. */
export async function orderShockDose(page: Page): Promise<void> {
  const main = await go(page, 'Control')
  await button(main, 'Order a measure').click()
  await field(main, 'Measure').selectOption('shock chlorination')
  await main.getByRole('radio', { name: /^50 mg\/L for 1 h, at the outlet/ }).check()
  await field(main, 'Where, in words').fill('the outlets that grew')
  await field(main, 'Who does it').fill('Facility, with a licensed plumber')
  await (await fewestPlaces(page)).click()
  await main.getByText('Reckon it', { exact: true }).click()
  await reckonDose(main)
  await button(main, 'Order it').click()
  await expect(main.getByRole('region', { name: /^Proof: Shock chlorination/ })).toContainText('reached the target')
  const [ordered] = (await entriesOf(page, 'measure.ordered')).slice(-1)
  expect(ordered?.body).toMatchObject({
    measure: 'shock chlorination',
    target: { quantity: 'free chlorine', value: 50, unit: 'mg/L', minutes: 60 },
    calculation: { id: 'shock-dose' },
  })
}

/** 1000 L at 50 mg/L take 0.05 kg of chlorine, which 0.4 L of a solution of 10 % by weight and 1.25 kg/L holds. computed */
async function reckonDose(main: Locator): Promise<void> {
  const dose = main.getByRole('tabpanel')
  await field(dose, 'Water to be treated').fill(WATER_L)
  await field(dose, 'Concentration to reach, as Cl2').fill('50')
  await dose.getByRole('combobox').first().selectOption('sodium-hypochlorite')
  await field(dose, 'Available chlorine by weight, from the label').fill('10')
  await field(dose, 'Density of a solution, from the label').fill('1,25')
  await expect(dose).toContainText(/400 mL|0\.4 L/)
  await button(dose, 'Record this with the measure').click()
  await expect(main.getByText(', recorded with the measure:')).toBeVisible()
}

/** Of the groups of places offered, the one with the fewest. */
async function fewestPlaces(page: Page): Promise<Locator> {
  const groups = page.getByRole('button', { name: /^(Riser|Floor|Kind) .+, \d+ places$/ })
  await expect(groups.first()).toBeVisible()
  const counts = (await groups.allInnerTexts()).map((text) => Number(/\d+$/.exec(text.trim())?.[0] ?? 'NaN'))
  return groups.nth(counts.indexOf(Math.min(...counts.filter((count) => count > 1))))
}

/** Each outlet is measured; one falls short, so the measure can't be called carried out until it is measured again. */
export async function proveEachOutlet(page: Page): Promise<void> {
  const main = page.getByRole('main')
  const places = main.getByRole('list', { name: 'Proof at each place' }).getByRole('listitem')
  const count = await places.count()
  expect(count).toBeGreaterThan(1)
  await prove(places.first(), '32')
  await expect(places.first()).toContainText('not reached')
  for (let at = 1; at < count; at += 1) {
    await prove(places.nth(at), '52')
    await expect(places.nth(at)).toContainText('52 mg/L free chlorine for 60 min, reached')
  }
  await complete(page, 'carried out')
  const dialog = page.getByRole('dialog')
  await expect(dialog.getByRole('alert')).toContainText('until each place has a proof that reached the target')
  await button(dialog, 'Cancel').click()
  await prove(places.first(), '50')
  await expect(places.first()).toContainText('50 mg/L free chlorine for 60 min, reached')
  await complete(page, 'carried out')
  await expect(dialog).toBeHidden()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('1 measure ordered, none open')
}

async function prove(place: Locator, mgPerL: string): Promise<void> {
  await place.getByRole('textbox', { name: /^free chlorine at / }).fill(mgPerL)
  await button(place, /^(Record|Done here): /).click()
}

async function complete(page: Page, outcome: string): Promise<void> {
  await button(page.getByRole('main'), 'Complete this measure').click()
  const dialog = dialogOf(page, /^Complete: /)
  await dialog.getByRole('radio', { name: outcome, exact: true }).check()
  await button(dialog, 'Complete it').click()
}
