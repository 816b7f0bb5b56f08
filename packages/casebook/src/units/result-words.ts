import { type DisplayUnits, METRIC_UNITS } from './display-units.ts'
import { type Shown, showConcentration } from './display.ts'
import type { ConcentrationUnit } from './quantity.ts'
import type { ResultValue } from './result-value.ts'

/** How a result is told: by which method it was found, unless that stands beside it, and in which units the reader likes counts. */
export interface ToldBy {
  readonly method?: string | undefined
  readonly units?: DisplayUnits | undefined
}

/** A result in words that claim no more than was done: a negative is a statement about a volume and a method, never a bare zero. */
export function resultWords(value: ResultValue, { method, units = METRIC_UNITS }: ToldBy): string {
  const by = method === undefined ? '' : ` by ${method}`
  switch (value.kind) {
    case 'count':
      return `${concentration(value.value, { unit: value.unit, units }).words}${by}`
    case 'below':
      return `fewer than ${concentration(value.limit, { unit: value.unit, units }).words}${by}`
    case 'above':
      return `more than ${concentration(value.limit, { unit: value.unit, units }).words}${by}`
    case 'not-detected':
      return notFound(value, { method, units })
    case 'detected':
      return `detected${by}, not counted`
    case 'overgrown':
      return 'overgrown: nothing can be said, sample again'
    case 'broken':
      return 'bottle broken: nothing can be said, sample again'
    default:
      return `not tested: ${value.reason}`
  }
}

function notFound(
  value: Extract<ResultValue, { kind: 'not-detected' }>,
  { method, units }: { method: string | undefined; units: DisplayUnits },
): string {
  const by = method === undefined ? '' : ` by ${method}`
  if (value.volumeMl !== undefined) return `nothing found in ${grouped(String(value.volumeMl))} mL${by}`
  if (value.limit !== undefined && value.unit !== undefined)
    return `nothing found by ${method ?? 'a method'}, which sees ${concentration(value.limit, { unit: value.unit, units }).words} and more`
  return `nothing found${by}, in a volume the laboratory did not state`
}

/** As short as fits beside a mark: the number with its sign, the unit stands in the legend or head. */
export function resultShort(value: ResultValue, units: DisplayUnits = METRIC_UNITS): string {
  switch (value.kind) {
    case 'count':
      return concentration(value.value, { unit: value.unit, units }).text
    case 'below':
      return `<${concentration(value.limit, { unit: value.unit, units }).text}`
    case 'above':
      return `>${concentration(value.limit, { unit: value.unit, units }).text}`
    case 'not-detected':
      return 'not detected'
    case 'not-tested':
      return 'not tested'
    default:
      return value.kind
  }
}

function concentration(value: number, { unit, units }: { unit: ConcentrationUnit; units: DisplayUnits }): Shown {
  const { text, unit: shownUnit } = showConcentration({ value, unit }, units)
  const number = grouped(text)
  return { text: number, unit: shownUnit, words: `${number} ${shownUnit}` }
}

/** Groups of three from five digits on; the digits are those that were given. */
function grouped(text: string): string {
  const [whole = '', fraction] = text.split('.')
  const parted = whole.length > 4 && !whole.includes('e') ? whole.replace(/\B(?=(\d{3})+$)/g, ' ') : whole
  return fraction === undefined ? parted : `${parted}.${fraction}`
}
