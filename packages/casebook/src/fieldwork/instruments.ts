import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { ReadingQuantity } from './kinds.ts'
import { tooCoarse } from './residual-test.ts'

export type Instrument = EffectiveEntry<'instrument.registered'>['body']

/** The unit every reading of a quantity is kept in (UCUM). */
export const UNIT_OF = {
  'hot-temperature': 'Cel',
  'cold-temperature': 'Cel',
  ph: '[pH]',
  'free-chlorine': 'mg/L',
  'total-chlorine': 'mg/L',
} as const satisfies Record<ReadingQuantity, string>

/** What each kind of instrument can measure at all. */
export const MEASURED_BY: Readonly<Record<Instrument['kind'], readonly ReadingQuantity[]>> = {
  thermometer: ['hot-temperature', 'cold-temperature'],
  'pH meter': ['ph'],
  'pH strip': ['ph'],
  'chlorine kit': ['free-chlorine', 'total-chlorine'],
}

export const isResidual = (quantity: ReadingQuantity): quantity is 'free-chlorine' | 'total-chlorine' =>
  UNIT_OF[quantity] === 'mg/L'

/** The day after which an instrument's calibration no longer holds, if that day is past. */
export function calibrationOver({ calibrationDue }: Instrument, on: string): string | undefined {
  return calibrationDue !== undefined && calibrationDue < on ? calibrationDue : undefined
}

export interface InstrumentChoice {
  readonly instrument: Instrument
  /** what speaks against it, in words; it may still be used with a recorded deviation when only its calibration is over */
  readonly against?: string | undefined
}

/** The registered instruments that measure a quantity, those without objection first. */
export function instrumentsFor(
  state: InvestigationState,
  { quantity, on }: { quantity: ReadingQuantity; on: string },
): readonly InstrumentChoice[] {
  const choices = [...state.fieldwork.instruments.values()]
    .map(({ body }) => body)
    .filter(({ measures }) => measures.includes(quantity))
    .map((instrument): InstrumentChoice => ({ instrument, against: objection(instrument, { quantity, on }) }))
  return choices.toSorted((a, b) => Number(a.against !== undefined) - Number(b.against !== undefined))
}

function objection(
  instrument: Instrument,
  { quantity, on }: { quantity: ReadingQuantity; on: string },
): string | undefined {
  const over = calibrationOver(instrument, on)
  if (over !== undefined) return `calibration was due on ${over}`
  return isResidual(quantity) ? tooCoarse(instrument) : undefined
}
