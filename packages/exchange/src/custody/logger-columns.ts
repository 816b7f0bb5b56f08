import type { DateOrder } from './logger-time.ts'

/** Where a logger's file has its time and temperature, found by its heading. */
export interface LoggerColumns {
  /** row of the heading, counted from 0 */
  readonly headRow: number
  /** columns whose texts, joined, are the moment: one, or a date and a time */
  readonly time: readonly number[]
  readonly temperature: number
  readonly unit: 'C' | 'F' | undefined
  readonly temperatureHead: string
  /** other columns that hold a temperature */
  readonly others: readonly { readonly column: number; readonly head: string }[]
  /** the heading says the times are in UTC */
  readonly utc: boolean
}

const TIME = /time|zeit|heure|hora|uhr|stamp|tijd|ora\b/i
const DATE = /date|datum|fecha|jour|data\b|day/i
const TEMPERATURE = /temp|celsius|fahrenheit|°\s*[cf]\b|º\s*[cf]\b|\bdeg\.?\s*[cf]\b/i
/** Columns about a temperature that are not the temperature. */
const BESIDES = /alarm|limit|min\b|max\b|avg|mean|status|set\s?point|dew/i

/** The first row that names a time and a temperature is the heading; what stands above it is left aside. */
export function loggerColumns(rows: readonly (readonly string[])[], asked?: number): LoggerColumns | undefined {
  const headRow = rows.findIndex((row) => row.length > 1 && timesOf(row).length > 0 && temperaturesOf(row).length > 0)
  const head = rows[headRow]
  if (head === undefined) return undefined
  const temperatures = temperaturesOf(head)
  const temperature = temperatures.find((column) => column === asked) ?? temperatures[0]
  if (temperature === undefined) return undefined
  const temperatureHead = (head[temperature] ?? '').trim()
  const time = timesOf(head)
  return {
    headRow,
    time,
    temperature,
    unit: unitOf(temperatureHead),
    temperatureHead,
    others: temperatures
      .filter((column) => column !== temperature)
      .map((column) => ({ column, head: (head[column] ?? '').trim() })),
    utc: time.some((column) => /\b(utc|gmt)\b(?![+-]?\s*\d)/i.test(head[column] ?? '')),
  }
}

function timesOf(head: readonly string[]): number[] {
  const named = head.map((cell, column) => ({ cell, column })).filter(({ cell }) => !TEMPERATURE.test(cell))
  const both = named.find(({ cell }) => (TIME.test(cell) && DATE.test(cell)) || /stamp/i.test(cell))
  if (both !== undefined) return [both.column]
  const date = named.find(({ cell }) => DATE.test(cell))
  const time = named.find(({ cell }) => TIME.test(cell))
  return [date, time].flatMap((each) => (each === undefined ? [] : [each.column]))
}

function temperaturesOf(head: readonly string[]): number[] {
  return head.flatMap((cell, column) => (TEMPERATURE.test(cell) && !BESIDES.test(cell) ? [column] : []))
}

/** °C or °F as the heading says it; undefined where it says neither, or both. */
function unitOf(head: string): 'C' | 'F' | undefined {
  const celsius = /celsius|[°º]\s*c\b|\bdeg\.?\s*c\b|[([,_\s]c[)\],\s]*$/i.test(head)
  const fahrenheit = /fahrenheit|[°º]\s*f\b|\bdeg\.?\s*f\b|[([,_\s]f[)\],\s]*$/i.test(head)
  if (celsius === fahrenheit) return undefined
  return celsius ? 'C' : 'F'
}

/** Which of day and month comes first, where the dates themselves show it. */
export function orderShown(numbers: readonly [number, number][]): DateOrder | undefined {
  const [first, second] = [Math.max(0, ...numbers.map(([a]) => a)), Math.max(0, ...numbers.map(([, b]) => b))]
  if (first > 12 && second <= 12) return 'day-month-year'
  return second > 12 && first <= 12 ? 'month-day-year' : undefined
}
