import { expect, type Locator, type Page } from '@playwright/test'
import { button, dialogOf, field, go } from './person.ts'
import { keepsCurveThroughReload, takeCurve } from './curve.ts'
import { type Instrument, register, THERMOMETER } from './instruments.ts'
import { press, settleStop, stepOf } from './stop.ts'

const SHOWER = '201 shower'
const FREE_KIT: Instrument = { code: 'Kit F', kind: 'chlorine kit', range: ['0', '5', '0.05'], not: 'total chlorine' }
const POOL_KIT: Instrument = { code: 'Pool kit', kind: 'chlorine kit', range: ['0', '10', '1'], not: 'free chlorine' }
const TOTAL_KIT: Instrument = { code: 'Kit T', kind: 'chlorine kit', range: ['0', '5', '0.05'], not: 'free chlorine' }
const PH_METER: Instrument = { code: 'pH 2', kind: 'pH meter', range: ['0', '14', '0.1'] }

/** One stop in full: the trap of each step stepped into once, and refused with its reason. */
export async function walkOneStopInFull(page: Page): Promise<void> {
  const main = await go(page, 'Fieldwork')
  await button(main, 'Register an instrument').click()
  await register(page, THERMOMETER)
  await main.getByRole('button', { name: new RegExp(`^2 ${SHOWER}`) }).click()
  const visit = page.getByRole('region', { name: SHOWER })
  await button(visit, 'Start this stop').click()
  await press(visit, button(visit, 'Understood'))
  await field(visit, 'What you were told or saw').fill('Last used by the cleaner this morning.')
  await press(visit, button(visit, 'Noted'))
  await leaveHeadOn(page, visit)
  await labelWithCare(page, visit)
  await settleStop(page, { visit, until: 'Total chlorine' })
  await measureResidual(page, visit)
  await settleStop(page, { visit, until: 'Run until it is as hot as it gets' })
  await takeCurve(page, visit)
  await keepsCurveThroughReload(page, visit)
  await settleStop(page, { visit })
  await expect(visit.getByRole('listitem').filter({ hasText: 'head is painted over' })).toContainText('deviation')
}

/** The head can't be taken off: a departure in two taps, with its reason. */
async function leaveHeadOn(page: Page, visit: Locator): Promise<void> {
  await settleStop(page, { visit, until: 'Take off the head' })
  await button(visit, 'Can’t do this').click()
  const dialog = dialogOf(page, 'Take off the head: why not?')
  await field(dialog, 'In words, if it needs more (type before you choose)').fill('head is painted over')
  await dialog.getByRole('listitem').getByRole('button').first().click()
  await expect(dialog).toBeHidden()
  await expect(stepOf(visit)).not.toHaveText('Take off the head')
}

/** Two digits swapped, then the label of the other container: each refused with its reason. */
async function labelWithCare(page: Page, visit: Locator): Promise<void> {
  await settleStop(page, { visit, until: 'Label the tube' })
  const inHand = field(visit, 'What the label in your hand says')
  const expected = (await visit.getByText('The record expects').locator('..').locator('b').innerText()).trim()
  await inHand.fill(swapped(expected))
  await expect(visit.getByRole('alert')).toContainText('check digits do not fit')
  await expect(button(visit, 'Scan the label')).toBeVisible()
  await inHand.fill(expected.toLowerCase())
  await inHand.press('Enter')
  await expect(stepOf(visit)).not.toHaveText('Label the tube')
}

/** The last two characters of a label, the other way round. */
export const swapped = (label: string): string => `${label.slice(0, -2)}${label.at(-1) ?? ''}${label.at(-2) ?? ''}`

/** Chloramine: a free test is not offered and says why; a pool kit is refused with the reason; the fine total kit is taken. */
async function measureResidual(page: Page, visit: Locator): Promise<void> {
  await expect(visit.getByText('a free test misses chloramine')).toBeVisible()
  await button(visit, 'Register an instrument').click()
  await register(page, FREE_KIT)
  await expect(visit.getByText('Kit F measures free chlorine only')).toBeVisible()
  await expect(button(visit, 'Keep the reading')).toBeDisabled()
  await button(visit, 'Register an instrument').click()
  await register(page, POOL_KIT)
  await field(visit, 'Reading').fill('1')
  await button(visit, 'Keep 1 mg/L').click()
  await expect(visit.getByRole('alert')).toContainText("can't tell a residual below 2 mg/L")
  await button(visit, 'Another instrument').click()
  await button(dialogOf(page, 'Read with'), 'Register an instrument').click()
  await register(page, TOTAL_KIT)
  await expect(visit.getByRole('alert')).toBeHidden()
  await field(visit, 'Reading').fill('0,9')
  await expect(visit.getByText(/covers 1\.77 mg\/L, enough/)).toBeVisible()
  await press(visit, button(visit, 'Keep 0.9 mg/L'))
  await button(visit, 'Register an instrument').click()
  await register(page, PH_METER)
}

/** The other stops, as quickly as the screen allows. */
export async function walkOtherStops(page: Page): Promise<void> {
  const main = await go(page, 'Fieldwork')
  await main
    .getByRole('button', { name: /^Next: / })
    .first()
    .click()
  for (;;) {
    const visit = page.locator('section.field-visit')
    await button(visit, 'Start this stop').click()
    await settleStop(page, { visit })
    const next = visit.getByRole('button', { name: /^Next: / })
    if ((await next.count()) === 0) break
    await next.click()
  }
  await expect(main.getByText('7 of 7 stops, 9 of 9 samples')).toBeVisible()
}
