import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import { show, showRange } from '../units/display.ts'
import type { ReadingQuantity, ReadingValue } from './kinds.ts'

/** What is read, as one says it. */
export const READING_QUANTITY_WORDS: Readonly<Record<ReadingQuantity, string>> = {
  'hot-temperature': 'hot temperature',
  'cold-temperature': 'cold temperature',
  ph: 'pH',
  'free-chlorine': 'free chlorine',
  'total-chlorine': 'total chlorine',
}

/** The units of readings, in the codes of the record, as people write them. */
const READING_UNIT_WORDS: Readonly<Record<ReadingValue['unit'], string>> = {
  Cel: '°C',
  '[pH]': '',
  'mg/L': 'mg/L',
}

interface How {
  readonly units?: DisplayUnits
  /** `< 0.1 mg/L` for a table; else `below 0.1 mg/L` */
  readonly signs?: boolean
}

/** A reading as it was taken, in the reader's units: a number, or that it lay outside what the instrument can tell. */
export function readingAmount(reading: ReadingValue, { units = METRIC_UNITS, signs = false }: How = {}): string {
  const { words } = show(reading.kind === 'value' ? reading.value : reading.limit, {
    unit: READING_UNIT_WORDS[reading.unit],
    units,
  })
  if (reading.kind === 'value') return words
  return signs ? `${reading.kind === 'below' ? '<' : '>'} ${words}` : `${reading.kind} ${words}`
}

/** What an instrument can tell: `0 to 100 °C`. */
export function instrumentRange(
  { rangeMin, rangeMax, unit }: { rangeMin: number; rangeMax: number; unit: ReadingValue['unit'] },
  units: DisplayUnits = METRIC_UNITS,
): string {
  const words = showRange([rangeMin, rangeMax], { unit: READING_UNIT_WORDS[unit], units })
  return unit === '[pH]' ? `${words} pH` : words
}

/** The steps an instrument shows; a step of temperature is a difference. */
export function instrumentStep(
  { resolution, unit }: { resolution: number; unit: ReadingValue['unit'] },
  units: DisplayUnits = METRIC_UNITS,
): string {
  if (unit !== 'Cel') return String(resolution)
  const { text, unit: shown } = show(resolution, { unit: 'K', units })
  return shown === 'K' ? text : `${text} °F`
}
