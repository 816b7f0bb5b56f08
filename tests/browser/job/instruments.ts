import { expect, type Page } from '@playwright/test'
import { button, dialogOf, field } from './person.ts'

export interface Instrument {
  readonly code: string
  readonly kind: string
  /** from, to, steps */
  readonly range: readonly [string, string, string]
  /** what a chlorine kit does not measure */
  readonly not?: string
}

export const THERMOMETER: Instrument = { code: 'T-7', kind: 'thermometer', range: ['-20', '120', '0.1'] }

/** Fills the form that is open. */
export async function register(page: Page, { code, kind, range, not }: Instrument): Promise<void> {
  const dialog = dialogOf(page, 'Register an instrument')
  const [from, to, steps] = range
  await field(dialog, 'Name or number on it').fill(code)
  await field(dialog, 'Kind').selectOption(kind)
  await field(dialog, 'Reads from').fill(from)
  await field(dialog, 'Up to').fill(to)
  await field(dialog, 'In steps of').fill(steps)
  if (not !== undefined) await dialog.getByLabel(`Measures ${not}`).uncheck()
  await field(dialog, 'Calibrated on').fill('2026-02-01')
  await field(dialog, 'Next calibration due').fill('2026-08-01')
  await button(dialog, 'Register').click()
  await expect(dialog).toBeHidden()
}
