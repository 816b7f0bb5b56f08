import type { ResultValue } from '../units/result-value.ts'

/** A result in words that claim no more than was done: a negative is a statement about a volume and a method. */
export function valueWords(value: ResultValue, method: string): string {
  switch (value.kind) {
    case 'count':
      return `${shown(value.value)} ${value.unit} by ${method}`
    case 'below':
      return `fewer than ${shown(value.limit)} ${value.unit} by ${method}`
    case 'above':
      return `more than ${shown(value.limit)} ${value.unit} by ${method}`
    case 'not-detected':
      return notFound(value, method)
    case 'detected':
      return `detected by ${method}, not counted`
    case 'overgrown':
      return 'overgrown: nothing can be said, sample again'
    case 'broken':
      return 'bottle broken: nothing can be said, sample again'
    default:
      return `not tested: ${value.reason}`
  }
}

function notFound(value: Extract<ResultValue, { kind: 'not-detected' }>, method: string): string {
  if (value.volumeMl !== undefined) return `nothing found in ${shown(value.volumeMl)} mL by ${method}`
  if (value.limit !== undefined && value.unit !== undefined)
    return `nothing found by ${method}, which sees ${shown(value.limit)} ${value.unit} and more`
  return `nothing found by ${method}, in a volume the laboratory did not state`
}

/** As short as fits beside a mark: the number with its sign, the unit stands in the legend or head. */
export function valueShort(value: ResultValue): string {
  switch (value.kind) {
    case 'count':
      return shown(value.value)
    case 'below':
      return `<${shown(value.limit)}`
    case 'above':
      return `>${shown(value.limit)}`
    case 'not-detected':
      return 'not detected'
    case 'not-tested':
      return 'not tested'
    default:
      return value.kind
  }
}

/** Groups of three from five digits on; the digits are those that were given. */
function shown(value: number): string {
  const [whole = '', fraction] = String(value).split('.')
  const grouped = whole.length > 4 && !whole.includes('e') ? whole.replace(/\B(?=(\d{3})+$)/g, ' ') : whole
  return fraction === undefined ? grouped : `${grouped}.${fraction}`
}
