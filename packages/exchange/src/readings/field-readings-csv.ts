import { FIELD_READINGS_FORMAT } from '@rillmark/casebook/calibration/field-reading.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import Papa from 'papaparse'
import { delimiterOf } from '../results/read-csv.ts'
import { readNumber } from '../results/read-number.ts'

const COLUMNS = ['component', 'circuit', 'temperatureC', 'residualMgPerL', 'seconds', 'at', 'sd'] as const
type Column = (typeof COLUMNS)[number]
const NUMERIC: ReadonlySet<string> = new Set<Column>(['temperatureC', 'residualMgPerL', 'seconds', 'sd'])
const LIMITED: ReadonlySet<string> = new Set<Column>(['temperatureC', 'residualMgPerL'])

/**
 * A CSV table of readings as the JSON of the same format, still to be checked. Columns by name, in any order: `component`, `circuit`, one of
 * `temperatureC` and `residualMgPerL` (`<0.05` and `>60` are limits), and where known `seconds`, `at` and `sd`.
 *
 * @param text of the file; comma, semicolon or tab between columns, a decimal comma where it isn't the comma
 */
export function fieldReadingsCsv(text: string): { value: unknown } | { issues: Issue[] } {
  const bare = text.replace(/^\uFEFF/, '')
  const delimiter = delimiterOf(bare)
  const [head = [], ...rows] = Papa.parse<string[]>(bare, { delimiter, skipEmptyLines: 'greedy' }).data
  const columns = head.map((name) => name.trim())
  const unknown = columns.filter((name) => !COLUMNS.some((one) => one === name))
  if (unknown.length > 0 || !columns.includes('component'))
    return { issues: [issue('line 1', { expected: `columns of ${COLUMNS.join(', ')}`, received: columns.join(', ') })] }
  const issues: Issue[] = []
  const readings = rows.map((cells, index) =>
    Object.fromEntries(
      columns.flatMap((column, at) => {
        const cell = (cells[at] ?? '').trim()
        if (cell === '') return []
        const value = NUMERIC.has(column) ? amountOf(cell, { delimiter, limited: LIMITED.has(column) }) : cell
        if (value === undefined)
          issues.push(issue(`line ${index + 2}, ${column}`, { expected: 'a number', received: cell }))
        return [[column, value] as const]
      }),
    ),
  )
  return issues.length > 0 ? { issues } : { value: { format: FIELD_READINGS_FORMAT, readings } }
}

type Amount = number | { below: number } | { above: number }

function amountOf(cell: string, given: { delimiter: string; limited: boolean }): Amount | undefined {
  const [, sign, rest = ''] = /^([<>]?)(.*)$/.exec(cell) ?? []
  const read = readNumber(rest, rest.includes(',') && given.delimiter !== ',' ? 'comma' : 'point')
  if (read.kind !== 'number' || (sign !== '' && !given.limited)) return undefined
  if (sign === '<') return { below: read.value }
  return sign === '>' ? { above: read.value } : read.value
}
