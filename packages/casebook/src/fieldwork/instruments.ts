import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { FIELDWORK, thresholdFor } from './figures.ts'
import type { ReadingQuantity, ReadingValue } from './kinds.ts'
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
  if (isResidual(quantity)) return tooCoarse(instrument)
  return quantity === 'ph' ? unfitForPh(instrument) : unfitForWater(instrument, quantity)
}

function unfitForPh({ rangeMin, rangeMax, resolution }: Instrument): string | undefined {
  const { phFrom, phUpTo, coarsestPhStep } = FIELDWORK
  if (rangeMin > phFrom || rangeMax < phUpTo)
    return `reads ${rangeMin} to ${rangeMax}, drinking water is looked for from ${phFrom} to ${phUpTo}`
  return resolution > coarsestPhStep ? `steps of ${resolution} are too coarse for pH` : undefined
}

function unfitForWater(
  { rangeMin, rangeMax, resolution }: Instrument,
  quantity: 'hot-temperature' | 'cold-temperature',
): string | undefined {
  const { temperatureC } = thresholdFor(quantity)
  if (quantity === 'hot-temperature' && rangeMax <= temperatureC)
    return `reads up to ${rangeMax} °C only, hot water is held against ${temperatureC} °C`
  if (quantity === 'cold-temperature' && rangeMin >= temperatureC)
    return `reads from ${rangeMin} °C only, cold water is held against ${temperatureC} °C`
  return resolution > FIELDWORK.coarsestThermometerStepC
    ? `steps of ${resolution} °C can't show that the water is steady`
    : undefined
}

/** Why a reading can't be what the instrument showed: it lies between two of its steps. Undefined where it can. */
export function betweenSteps({ code, resolution }: Instrument, reading: ReadingValue): string | undefined {
  if (reading.kind !== 'value') return undefined
  const steps = reading.value / resolution
  return Math.abs(steps - Math.round(steps)) < ROUNDING ? undefined : `${code} shows steps of ${resolution}`
}

/** Readings and steps are decimal, their quotient is binary. */
const ROUNDING = 1e-6
