import { counted } from '@rillmark/casebook/units/counted.ts'
import { type PastedTable, pastedTableText, readPastedTable } from '@rillmark/exchange/calculators/pasted-table.ts'
import { asGroup, type Draft, type GroupDraft } from '../form/draft.ts'
import type { NamedField } from '../form/field-spec.ts'
import { fieldWords } from '../form/field-words.ts'
import { isRecord, jsonOf } from './json-draft.ts'
import { cellWords, figureJson, typedCell } from './typed-cell.ts'
import type { TypedText } from './typed-text.ts'

type Table = Extract<PastedTable, { ok: true }>

/** Reads a text as a table and hands it on; a table that can't be read fills nothing. */
export function typedTable(text: string, { names, made }: TableReader): TypedText {
  const nothing = Object.fromEntries(names.map((name) => [name, []]))
  if (text.trim() === '') return { drafts: nothing, problems: [], summary: '' }
  const table = readPastedTable(text)
  if (!table.ok) return { drafts: nothing, problems: [table.problem], summary: '' }
  const { drafts, problems, columns = table.head } = made(table)
  return {
    drafts: problems.length === 0 ? drafts : nothing,
    problems,
    summary: `${counted(table.rows.length, 'row')}, ${counted(columns.length, 'column')}: ${columnWords(columns)}`,
  }
}

interface TableReader {
  readonly names: readonly string[]
  readonly made: (
    table: Table,
  ) => Pick<TypedText, 'drafts' | 'problems'> & { readonly columns?: readonly string[] | undefined }
}

const MOST_COLUMNS_NAMED = 8

function columnWords(columns: readonly string[]): string {
  const named = columns.slice(0, MOST_COLUMNS_NAMED).map((name) => (name === '' ? 'no name' : name))
  return [...named, ...(columns.length > named.length ? ['and more'] : [])].join(', ')
}

/** What a column of a field is headed. */
export function columnHead({ name, unit }: NamedField): string {
  const words = fieldWords(name, {})
  const told = unit === '' ? words.unit : unit
  return told === '' ? words.label : `${words.label} (${told})`
}

const bare = (text: string): string =>
  text
    .replace(/\(.*?\)/g, '')
    .toLowerCase()
    .replace(/[^\p{L}\d]/gu, '')

/** Where a column for each field stands, whichever of its names heads it. */
function columnsOf(head: readonly string[], fields: readonly NamedField[]): ReadonlyMap<NamedField, number> {
  const places = fields.map((field) => {
    const names = new Set([field.name, field.label, columnHead(field)].map(bare))
    return [field, head.findIndex((text) => names.has(bare(text)))] as const
  })
  return new Map(places.filter(([, at]) => at >= 0))
}

function missingHeads(fields: readonly NamedField[], found: ReadonlyMap<NamedField, number>): readonly string[] {
  return fields
    .filter((field) => field.needed && !found.has(field))
    .map((field) => `The heading has no column “${columnHead(field)}”.`)
}

/** Rows of fields known beforehand. */
export function readRows(
  { head, rows }: Table,
  { list, fields }: { readonly list: string; readonly fields: readonly NamedField[] },
): ReturnType<TableReader['made']> {
  const found = columnsOf(head, fields)
  const problems = [...missingHeads(fields, found)]
  const known = new Set(found.values())
  for (const [at, name] of head.entries()) if (!known.has(at)) problems.push(`No column is called “${name}” here.`)
  const drafts = rows.map((cells, row) =>
    Object.fromEntries(
      fields.map((field) => {
        const at = found.get(field)
        const cell = at === undefined ? { draft: '' } : typedCell(field.spec, cells[at] ?? '')
        return [field.name, kept(cell, { problems, place: placeWords(row, columnHead(field)) })]
      }),
    ),
  )
  return { drafts: { [list]: drafts }, problems, columns: [...found.keys()].map(columnHead) }
}

/** Rows with columns under names of the user's own, each with a figure in every row. */
export function readOwnRows(
  { head, rows }: Table,
  { list, fields }: { readonly list: string; readonly fields: readonly NamedField[] },
): ReturnType<TableReader['made']> {
  const found = columnsOf(head, fields)
  const problems = [...missingHeads(fields, found)]
  const names = [...head]
  for (const [field, at] of found) names[at] = field.name
  for (const [at, name] of names.entries())
    if (name === '' || names.indexOf(name) < at)
      problems.push(
        name === '' ? `Column ${at + 1} needs a name in the heading.` : `Two columns are called “${head[at]}”.`,
      )
  const drafts = rows.map((cells, row) => {
    const json = names.map((name, at) => {
      const cell = cells[at] ?? ''
      const figure = cell === '' ? { problem: 'a figure is needed.' } : figureJson(cell)
      return `${JSON.stringify(name)}:${kept(figure, { problems, place: placeWords(row, head[at] ?? '') })}`
    })
    return `{${json.join(',')}}`
  })
  return { drafts: { [list]: drafts }, problems }
}

/** Names in the first column, and what belongs to each beside it. */
export function namedRows({ rows }: Table): readonly { readonly name: string; readonly cells: readonly string[] }[] {
  return rows.map(([name = '', ...cells]) => ({ name, cells }))
}

/** An allele or a distance as JSON; a dash or nothing where it is missing. */
export function cellJson(text: string): string {
  if (['', '-', '–', '?'].includes(text)) return 'null'
  return /^(0|[1-9]\d{0,14})$/.test(text) ? text : JSON.stringify(text)
}

/** A cell held as JSON, as it stands in the table. */
export function jsonCell(draft: Draft | undefined): string {
  const value = jsonOf(draft)
  return value === null ? '-' : String(value ?? '')
}

/** Rows of fields as text; nothing where no row says anything. */
export function rowsText(drafts: readonly Draft[], fields: readonly NamedField[]): string {
  const groups = drafts.map(asGroup).filter((draft) => fields.some((field) => !isPreset(field, draft[field.name])))
  const used = fields.filter(
    ({ name, spec, needed }) => needed || groups.some((draft) => cellWords(spec, draft[name]) !== ''),
  )
  return tableText(
    used.map(columnHead),
    groups.map((draft) => used.map(({ name, spec }) => cellWords(spec, draft[name]))),
  )
}

function isPreset({ preset }: NamedField, draft: Draft | undefined): boolean {
  return (
    draft === undefined ||
    draft === '' ||
    draft === false ||
    (Array.isArray(draft) && draft.length === 0) ||
    draft === String(preset)
  )
}

/** Rows held as JSON as text, a column for each name. */
export function ownRowsText(drafts: readonly Draft[]): string {
  const rows = drafts.map(jsonOf).filter(isRecord)
  const names = [...new Set(rows.flatMap((row) => Object.keys(row)))]
  return tableText(
    names,
    rows.map((row) => names.map((name) => String(row[name] ?? ''))),
  )
}

export function tableText(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return rows.length === 0 ? '' : pastedTableText([head, ...rows])
}

const placeWords = (row: number, column: string): string => `Row ${row + 1}, ${column}`

function kept<Kept extends Draft>(
  cell: { readonly draft: Kept } | { readonly problem: string },
  { problems, place }: { problems: string[]; place: string },
): Kept | '' {
  if ('draft' in cell) return cell.draft
  problems.push(`${place}: ${cell.problem}`)
  return ''
}

export const listIn = (draft: GroupDraft, name: string): readonly Draft[] => {
  const list = draft[name]
  return Array.isArray(list) ? (list as readonly Draft[]) : []
}
