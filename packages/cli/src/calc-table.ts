import { limitWords, withSmallestPInWords } from '@rillmark/science/catalogue/answer-words.ts'
import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import * as z from 'zod'
import { alignedLines } from './table-lines.ts'

/** What a run answers. */
export interface Answer {
  readonly result: unknown
  readonly sources: readonly { readonly citation: string; readonly known: string }[]
  readonly cautions: readonly string[]
}

interface FieldSchema {
  readonly description?: string
  readonly unit?: string
  readonly properties?: Readonly<Record<string, FieldSchema>>
  readonly items?: FieldSchema
}

type Values = Readonly<Record<string, unknown>>

/** A line of the result: where it stands, its value with the unit, and what it is. */
interface Line {
  readonly path: string
  readonly words: string
  readonly about: string
}

/** A list of the result that is a table of its own. */
interface Table {
  readonly path: string
  readonly about: string
  readonly rows: readonly (readonly string[])[]
}

/** The answer of a calculation as people read it at a terminal. Numbers are shortened; `--json` gives every digit and every row. */
export function calculationTable(calculation: Calculation, { result, sources, cautions }: Answer): string {
  const schema = z.toJSONSchema(calculation.output) as FieldSchema
  const { lines, tables } = read(withSmallestPInWords(result), { schema, path: '' })
  return `${[
    `${calculation.title} (${calculation.id}, version ${calculation.version})`,
    section(
      'Result',
      alignedLines(
        lines.map(({ path, words, about }) => (words.length > LONG_WORDS ? [path, words] : [path, words, about])),
      ),
    ),
    ...tables.map(({ path, about, rows }) => section(about === '' ? path : `${path}: ${about}`, alignedLines(rows))),
    section('Cautions', cautions),
    section(
      'Sources',
      sources.map(({ citation, known }) => `${citation} [${known}]`),
    ),
  ]
    .filter((part) => part !== '')
    .join('\n\n')}\n`
}

interface Place {
  readonly schema: FieldSchema
  readonly path: string
}

interface Parts {
  readonly lines: readonly Line[]
  readonly tables: readonly Table[]
}

function read(value: unknown, { schema, path }: Place): Parts {
  const about = aboutOf(schema)
  if (Array.isArray(value) && value.some((item) => typeof item === 'object' && item !== null))
    return { lines: [], tables: [{ path, about, rows: tableRows(value, schema.items ?? {}) }] }
  if (isValues(value) && !isInterval(value)) {
    const parts = Object.entries(value)
      .filter(([, inner]) => inner !== undefined)
      .map(([name, inner]) =>
        read(inner, { schema: schema.properties?.[name] ?? {}, path: path === '' ? name : `${path}.${name}` }),
      )
    return { lines: parts.flatMap(({ lines }) => lines), tables: parts.flatMap(({ tables }) => tables) }
  }
  return { lines: [{ path, words: withUnit(valueWords(value), unitIn(schema)), about }], tables: [] }
}

/** A row for each item: objects under the names of their fields, lists cell by cell. */
function tableRows(items: readonly unknown[], schema: FieldSchema): string[][] {
  const shown = items.slice(0, MOST_ROWS)
  const names = [...new Set(shown.flatMap((item) => (isValues(item) ? Object.keys(item) : [])))]
  const head = names.map((name) => withUnit(name, bracketed(schema.properties?.[name]?.unit)))
  const rows = shown.map((item) => {
    if (Array.isArray(item)) return short(item).map(valueWords)
    return isValues(item) ? names.map((name) => valueWords(item[name])) : [valueWords(item)]
  })
  const more = items.length - shown.length
  return [...(head.length === 0 ? [] : [head]), ...rows, ...(more === 0 ? [] : [[`and ${more} more rows`]])]
}

/** A value of so many letters says itself what it is. */
const LONG_WORDS = 40
const MOST_ROWS = 60
const MOST_CELLS = 20
const SHOWN_DIGITS = 5

function valueWords(value: unknown): string {
  if (value === undefined || value === null) return ''
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'number')
    return Number.isInteger(value) ? String(value) : String(Number(value.toPrecision(SHOWN_DIGITS)))
  if (typeof value === 'string') return value
  if (Array.isArray(value)) return value.length === 0 ? 'none' : short(value).map(valueWords).join(', ')
  if (isInterval(value)) return limitWords(value as Values, valueWords)
  return Object.entries(value)
    .map(([name, inner]) => `${name} ${valueWords(inner)}`)
    .join(', ')
}

function short(items: readonly unknown[]): unknown[] {
  const more = items.length - MOST_CELLS
  return more > 0 ? [...items.slice(0, MOST_CELLS), `and ${more} more`] : [...items]
}

const isValues = (value: unknown): value is Values =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

function isInterval(value: unknown): boolean {
  return isValues(value) && Object.keys(value).every((name) => name === 'lower' || name === 'upper')
}

const withUnit = (words: string, unit = ''): string => (unit === '' || words === '' ? words : `${words} ${unit}`)

const bracketed = (unit = ''): string => (unit === '' ? '' : `(${unit})`)

/** An interval carries the unit of its limits. */
const unitIn = ({ unit, properties }: FieldSchema): string => unit || properties?.['lower']?.unit || ''

/** The description without the unit, which stands with the value. */
function aboutOf(schema: FieldSchema): string {
  const { description = '' } = schema
  const end = ` (${unitIn(schema)})`
  return description.endsWith(end) ? description.slice(0, -end.length) : description
}

const section = (heading: string, lines: readonly string[]): string =>
  lines.length === 0 ? '' : [heading, ...lines.map((line) => `  ${line}`)].join('\n')
