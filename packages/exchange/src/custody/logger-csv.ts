import { SERIES_LIMITS } from '@rillmark/casebook/custody/kinds.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import Papa from 'papaparse'
import { fileText } from '../results/file-text.ts'
import { delimiterOf } from '../results/read-csv.ts'
import { readNumber } from '../results/read-number.ts'
import { type LoggerColumns, loggerColumns, orderShown } from './logger-columns.ts'
import { type DateOrder, dateNumbers, loggerTime } from './logger-time.ts'

/** What a person says about a file where it does not say so itself. */
export interface LoggerChoices {
  /** offset of the logger's clock, e.g. `+01:00`; a zone written in the file counts before it */
  readonly offset: string
  readonly order?: DateOrder | undefined
  readonly unit?: 'C' | 'F' | undefined
  /** which of several temperature columns, counted from 0 */
  readonly column?: number | undefined
}

/** A row that was left out, by the line it stands in. */
export interface LeftOut {
  readonly line: number
  readonly why: string
}

export interface LoggerReading {
  readonly atMs: number
  readonly temperatureC: number
}

interface LoggerRow extends LoggerReading {
  readonly line: number
}

/** A logger's file as it was read: every reading in order of time, and all that was noticed on the way. */
export interface LoggerFile {
  readonly ok: true
  readonly readings: readonly LoggerReading[]
  readonly leftOut: readonly LeftOut[]
  /** the same moment and temperature again */
  readonly repeated: number
  /** readings that stood before an earlier one */
  readonly outOfOrder: number
  readonly unit: 'C' | 'F'
  readonly column: { readonly at: number; readonly head: string }
  readonly others: LoggerColumns['others']
  readonly order: DateOrder
  /** whether day and month could as well stand the other way round */
  readonly orderDoubtful: boolean
  readonly encoding: string
}

export type LoggerReadingOf =
  | LoggerFile
  | { readonly ok: false; readonly issues: readonly Issue[]; readonly needs?: 'unit' }

/** A file of a fortnight at two readings a minute is 2 MB. */
export const LOGGER_FILE_BYTES = 10_000_000
const MOST_READINGS = SERIES_LIMITS.readings * SERIES_LIMITS.pieces
const POSSIBLE_C = { lowest: -40, highest: 100 } as const

/**
 * Reads a temperature logger's CSV, whatever program wrote it: any usual encoding and delimiter, a decimal comma, lines above the heading, date
 * and time in one column or two. The heading names the time, the temperature and its unit. A row that can't be read is left out and named
 * by its line; readings said twice count once; of two temperatures at one moment the later row is left out; what stands out of order is put
 * in order. Nothing is thrown.
 */
export function readLoggerCsv(bytes: Uint8Array, choices: LoggerChoices): LoggerReadingOf {
  if (bytes.length > LOGGER_FILE_BYTES)
    return refused(`at most ${LOGGER_FILE_BYTES / 1e6} MB`, `${Math.ceil(bytes.length / 1e6)} MB`)
  const { text, encoding } = fileText(bytes)
  if (text.includes('\0')) return refused('text in rows and columns', 'a binary file')
  const delimiter = delimiterOf(text)
  const grid = Papa.parse<string[]>(text, { delimiter, preview: MOST_READINGS * 2 }).data
  const columns = loggerColumns(grid, choices.column)
  if (columns === undefined)
    return refused(
      'a heading that names the time and the temperature with its unit, e.g. Time and Temperature (°C)',
      grid[0]?.join(delimiter).slice(0, 80) ?? '',
    )
  const unit = columns.unit ?? choices.unit
  if (unit === undefined)
    return { ...refused('°C or °F in the heading of the temperature', columns.temperatureHead), needs: 'unit' }
  return readRows(grid, { columns, unit, choices, encoding })
}

function readRows(
  grid: readonly (readonly string[])[],
  by: { columns: LoggerColumns; unit: 'C' | 'F'; choices: LoggerChoices; encoding: string },
): LoggerReadingOf {
  const { columns, unit, choices, encoding } = by
  const rows = numbered(grid).slice(columns.headRow + 1)
  const moments = rows.map(({ cells }) => columns.time.map((at) => (cells[at] ?? '').trim()).join(' '))
  const numbers = moments.flatMap((moment) => {
    const pair = dateNumbers(moment)
    return pair === undefined ? [] : [pair]
  })
  const shown = orderShown(numbers)
  const order = shown ?? choices.order ?? 'day-month-year'
  const offset = columns.utc ? '+00:00' : choices.offset
  const leftOut: LeftOut[] = []
  const readings: LoggerRow[] = []
  for (const [index, { cells, line }] of rows.entries()) {
    if (cells.every((cell) => cell.trim() === '')) continue
    const moment = moments[index] ?? ''
    const atMs = loggerTime(moment, { order, offset })
    const temperature = temperatureOf(cells[columns.temperature] ?? '', unit)
    if (atMs === undefined) leftOut.push({ line, why: `no date and time: ${quoted(moment)}` })
    else if (typeof temperature === 'string') leftOut.push({ line, why: temperature })
    else readings.push({ atMs: Math.round(atMs / 1000) * 1000, temperatureC: temperature, line })
  }
  if (readings.length === 0)
    return refused('at least one row with a time and a temperature', leftOut[0]?.why ?? 'only a heading')
  if (readings.length > MOST_READINGS)
    return refused(`at most ${MOST_READINGS} readings: let the logger give one a minute`, `${readings.length} readings`)
  return {
    ok: true,
    ...inOrder(readings, leftOut),
    unit,
    column: { at: columns.temperature, head: columns.temperatureHead },
    others: columns.others,
    order,
    orderDoubtful: shown === undefined && numbers.some(([a, b]) => a !== b && a <= 12 && b <= 12),
    encoding,
  }
}

/** Rows with the line of the file each begins in. */
function numbered(grid: readonly (readonly string[])[]): { cells: readonly string[]; line: number }[] {
  let line = 1
  return grid.map((cells) => {
    const at = line
    line += 1 + cells.reduce((breaks, cell) => breaks + (cell.match(/\r\n|\n|\r/g)?.length ?? 0), 0)
    return { cells, line: at }
  })
}

/** °C to two decimals, or why there is none. */
function temperatureOf(cell: string, unit: 'C' | 'F'): number | string {
  const bare = cell.replace(/\s*[°º]?\s*[CF]?\s*$/i, '').replace('−', '-')
  const read = readNumber(bare, bare.includes(',') ? 'comma' : 'point')
  if (read.kind !== 'number') return `no temperature: ${quoted(cell)}`
  const temperatureC = Math.round((unit === 'C' ? read.value : (read.value - 32) / 1.8) * 100) / 100
  return temperatureC < POSSIBLE_C.lowest || temperatureC > POSSIBLE_C.highest
    ? `${quoted(cell)} is no temperature of a cooler`
    : temperatureC
}

function inOrder(
  rows: readonly LoggerRow[],
  leftOut: readonly LeftOut[],
): Pick<LoggerFile, 'readings' | 'leftOut' | 'repeated' | 'outOfOrder'> {
  const outOfOrder = rows.filter(({ atMs }, at) => at > 0 && atMs < (rows[at - 1]?.atMs ?? atMs)).length
  const kept = new Map<number, LoggerRow>()
  const parted: LeftOut[] = []
  let repeated = 0
  for (const row of rows) {
    const first = kept.get(row.atMs)
    if (first === undefined) kept.set(row.atMs, row)
    else if (first.temperatureC === row.temperatureC) repeated += 1
    else parted.push({ line: row.line, why: anotherAt(row, first) })
  }
  const sorted = [...kept.values()].map(({ atMs, temperatureC }) => ({ atMs, temperatureC }))
  return {
    readings: sorted.sort((a, b) => a.atMs - b.atMs),
    leftOut: [...leftOut, ...parted].sort((a, b) => a.line - b.line),
    repeated,
    outOfOrder,
  }
}

/** A logger that goes by local time says an hour twice in autumn; one that logs faster than once a second says a second twice. */
function anotherAt({ temperatureC }: LoggerRow, first: LoggerRow): string {
  return `${temperatureC} °C where line ${first.line} has ${first.temperatureC} °C at the same moment: is an hour repeated, or are there several a second?`
}

const quoted = (text: string): string => JSON.stringify(text.trim().slice(0, 60))

function refused(expected: string, received: string): { ok: false; issues: readonly Issue[] } {
  return { ok: false, issues: [issue('file', { expected, received })] }
}
