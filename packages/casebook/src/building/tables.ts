import type * as z from 'zod'
import { issuesFromZod } from '@rillmark/science/catalogue/from-zod.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { Column, TableName } from './table-columns.ts'
import {
  columnFor,
  columnsOf,
  drawsFrom,
  drawsText,
  flattenUse,
  nestUse,
  provenanceFrom,
  provenanceText,
} from './table-columns.ts'
import type { Component, Pipe, WaterSystem } from './water-system.ts'
import { componentSchema, pipeSchema } from './water-system.ts'

/** A table as text: the heading, then the rows, each with its line in the file for messages. */
export interface TextTable {
  header: readonly string[]
  rows: readonly { line: number; cells: readonly string[] }[]
}

/** A table to be written: numbers stay numbers. */
export interface ValueTable {
  header: string[]
  rows: (string | number | undefined)[][]
}

export interface Merged {
  system: WaterSystem
  /** Ids of components or pipes the table brought in, and those it changed. */
  added: string[]
  changed: string[]
  issues: Issue[]
}

/**
 * Merges a table of components or of pipes into a water system: a known id changes what its row states and keeps the
 * rest, a new id is added. Rows with an issue are left out and listed; nothing is guessed at. Empty cells say nothing.
 */
export function mergeTable(system: WaterSystem, given: { table: TableName; text: TextTable }): Merged {
  const { table, text } = given
  return table === 'components'
    ? mergeInto<Component>(system, { table, text, list: system.components, schema: componentSchema })
    : mergeInto<Pipe>(system, { table, text, list: system.pipes, schema: pipeSchema })
}

interface MergeInput<T> {
  table: TableName
  text: TextTable
  list: readonly T[]
  schema: z.ZodType<T>
}

function mergeInto<T extends Component | Pipe>(
  system: WaterSystem,
  { table, text, list, schema }: MergeInput<T>,
): Merged {
  const { columns, issues } = readHeader(table, text.header)
  const known = new Map(list.map((one) => [one.id, one]))
  const merged: Merged = { system, added: [], changed: [], issues }
  const seen = new Map<string, number>()
  const comma = usesDecimalComma(text, columns)
  for (const row of text.rows) {
    const read = readRow({ columns, row, comma })
    const id = String(read.fields['id'] ?? '')
    const before = known.get(id)
    const part = { ...(before === undefined ? {} : keptFields(before, read.fields)), ...read.fields }
    const parsed = schema.safeParse(table === 'components' ? nestUse(part) : part)
    const found = [...read.issues, ...repeated(seen, { id, line: row.line })]
    const told = new Set(found.map((one) => one.path))
    const more = parsed.success ? [] : issuesFromZod(parsed.error, part).map((one) => atLine(one, row.line))
    found.push(...more.filter((one) => !told.has(one.path)))
    issues.push(...found)
    if (found.length > 0 || !parsed.success) continue
    known.set(id, parsed.data)
    ;(before === undefined ? merged.added : merged.changed).push(id)
  }
  merged.system = { ...system, [table]: [...known.values()] }
  return merged
}

const atLine = (one: Issue, line: number): Issue => ({ ...one, path: `line ${line}.${one.path.replace(/^use\./, '')}` })

function repeated(seen: Map<string, number>, { id, line }: { id: string; line: number }): Issue[] {
  const before = seen.get(id)
  if (before === undefined) seen.set(id, line)
  if (before === undefined || id === '') return []
  return [issue(`line ${line}.id`, { expected: `an id of its own (line ${before} has it)`, received: id })]
}

/** What a row leaves as it was; a new pattern of use takes the figures of the old one with it. */
function keptFields(before: Component | Pipe, stated: Record<string, unknown>): Record<string, unknown> {
  const fields = fieldsOf(before)
  if ('circuit' in before || before.use === undefined) return fields
  if (stated['pattern'] === undefined || stated['pattern'] === before.use.pattern) return fields
  const { use: _use, ...rest } = before
  return rest
}

const fieldsOf = (part: Component | Pipe): Record<string, unknown> =>
  'circuit' in part ? { ...part } : flattenUse(part)

type Columns = readonly (Column | undefined)[]

function readHeader(table: TableName, header: readonly string[]): { columns: Columns; issues: Issue[] } {
  const columns = header.map((heading) => columnFor(table, heading))
  const names = columnsOf(table).map((one) => one.name)
  const issues: Issue[] = []
  header.forEach((heading, index) => {
    const column = columns[index]
    if (column === undefined && heading.trim() !== '')
      issues.push(issue(`heading ${index + 1}`, { expected: `one of ${names.join(', ')}`, received: heading }))
    if (column !== undefined && columns.indexOf(column) !== index)
      issues.push(issue(`heading ${index + 1}`, { expected: `${column.name} only once`, received: heading }))
  })
  if (!columns.some((column) => column?.name === 'id'))
    issues.push(issue('heading', { expected: 'a column id', received: header.join(', ') }))
  return { columns, issues }
}

const isNumeric = (column: Column | undefined): boolean => column?.type === 'number' || column?.type === 'whole'

/** Numbers are read with a decimal comma where one stands as such and no point does. */
function usesDecimalComma({ rows }: TextTable, columns: Columns): boolean {
  const numbers = rows.flatMap(({ cells }) => cells.filter((_, index) => isNumeric(columns[index])))
  const comma = numbers.some(
    (cell) => /^-?\d+,(\d{1,2}|\d{4,}|0\d*)$/.test(cell.trim()) || /^-?0,\d+$/.test(cell.trim()),
  )
  return comma && !numbers.some((cell) => /\d\.\d/.test(cell))
}

interface RowInput {
  columns: Columns
  row: { line: number; cells: readonly string[] }
  comma: boolean
}

function readRow({ columns, row, comma }: RowInput): { fields: Record<string, unknown>; issues: Issue[] } {
  const fields: Record<string, unknown> = {}
  const issues: Issue[] = []
  columns.forEach((column, index) => {
    const cell = (row.cells[index] ?? '').trim()
    if (column === undefined || cell === '') return
    const value = readCell(column, { cell, comma })
    if (value === undefined)
      issues.push(issue(`line ${row.line}.${column.name}`, { expected: EXPECTED[column.type], received: cell }))
    else fields[column.name] = value
  })
  if (row.cells.length > columns.length)
    issues.push(issue(`line ${row.line}`, { expected: `${columns.length} cells`, received: row.cells.length }))
  return { fields, issues }
}

const EXPECTED: Record<Column['type'], string> = {
  text: 'text',
  number: 'a number with one decimal sign and no grouping',
  whole: 'a whole number',
  provenance: 'seen, told, drawn or guessed',
  draws: 'draws such as 07:30 10 min 9 L/min',
}

function readCell(column: Column, { cell, comma }: { cell: string; comma: boolean }): unknown {
  if (column.type === 'provenance') return provenanceFrom(cell)
  if (column.type === 'draws') return drawsFrom(cell)
  if (column.type === 'text') return cell
  const pointed = comma ? cell.replace(',', '.') : cell
  const value = /^[+-]?\d+(\.\d+)?(e[+-]?\d+)?$/i.test(pointed) ? Number(pointed) : Number.NaN
  if (!Number.isFinite(value) || (comma && cell.includes('.'))) return undefined
  return column.type === 'whole' && !Number.isInteger(value) ? undefined : value
}

/** The components or pipes of a system as a table; columns nothing is said in are left out, except the leading ones. */
export function tableOf(system: WaterSystem, table: TableName): ValueTable {
  const parts = (table === 'components' ? system.components : system.pipes).map(fieldsOf)
  const leading = table === 'components' ? 5 : 7
  const columns = columnsOf(table).filter(
    (column, index) => index < leading || parts.some((part) => part[column.name] !== undefined),
  )
  return {
    header: columns.map((column) => column.name),
    rows: parts.map((part) => columns.map((column) => cellValue(column, part[column.name]))),
  }
}

function cellValue(column: Column, value: unknown): string | number | undefined {
  if (value === undefined) return undefined
  if (column.type === 'provenance') return provenanceText(value as Component['provenance'])
  if (column.type === 'draws') return drawsText(value as Parameters<typeof drawsText>[0])
  return typeof value === 'number' ? value : String(value)
}
