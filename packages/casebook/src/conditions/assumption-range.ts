import type { DisplayUnits } from '../units/display-units.ts'
import { showRange } from '../units/display.ts'
import { isRecordUnit } from '../units/scales.ts'
import type { Assumption } from './conditions.ts'

/** How reference data writes that a figure has no unit. */
const NO_UNIT = '1'

/** What an assumed figure may be, empty without a range; of a unit such as `K added` or `°C` what has another beside it is told in the reader's. */
export function assumptionRange({ range, unit = '' }: Pick<Assumption, 'range' | 'unit'>, units: DisplayUnits): string {
  if (range === undefined) return ''
  const [first = '', ...rest] = unit.split(' ')
  const own = isRecordUnit(first) ? first : ''
  const after = own === '' ? (unit === NO_UNIT ? [] : [unit]) : rest
  const ends = showRange([range.lower, range.upper], { unit: own, units }).replaceAll(' difference', '')
  return [ends, ...after].filter((one) => one !== '').join(' ')
}
