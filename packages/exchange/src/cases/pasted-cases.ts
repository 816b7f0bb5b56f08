import { CASES_KINDS, CLASSIFICATIONS, EXPOSURE_KINDS } from '@rillmark/casebook/cases/kinds.ts'
import { codeIssue } from '@rillmark/casebook/cases/rules.ts'
import { issuesFromZod } from '@rillmark/science/catalogue/from-zod.ts'
import { type Issue, issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import Papa from 'papaparse'

/** What rows pasted from a spreadsheet say: cases and exposures ready to record, and everything wrong with the rest. */
export interface PastedCases {
  readonly cases: readonly BodyOf<'case.recorded'>[]
  readonly exposures: readonly BodyOf<'exposure.recorded'>[]
  /** paths are `row N, column` */
  readonly issues: readonly Issue[]
}

const COLUMNS = ['code', 'onset', 'classification', 'place', 'kind', 'from', 'to', 'notes'] as const
type Column = (typeof COLUMNS)[number]
type Row = Partial<Record<Column, string>>

/** The order in which columns are read when the first row names none. */
export const PASTED_COLUMNS: readonly string[] = COLUMNS

const MOST_ROWS = 5000
const LONGEST_PASTE = 5_000_000
/** A row of notes may go over several lines. */
const MOST_LINES = 2 * MOST_ROWS
const ROWS_A_SLICE = 200

/**
 * Reads rows copied from a spreadsheet: one line an exposure, cases repeated or not. With a head row the columns may stand in any order;
 * without one they are code, onset, classification, place, kind, from, to, notes. Dates are year-month-day; any other order is
 * refused, because 03/04 can't be told.
 */
export function readPastedCases(text: string): PastedCases {
  const reading = readInSlices(text)
  for (;;) {
    const { done, value } = reading.next()
    if (done === true) return value
  }
}

/**
 * What speaks against reading a text at all, told from its size and without reading it: so that nothing has to take up (show, keep)
 * a text that is going to be refused.
 */
export function tooMuch(text: string): Issue | undefined {
  const lines = countLines(text)
  if (text.length <= LONGEST_PASTE && lines <= MOST_LINES) return undefined
  return statedIssue('rows', { expected: `at most ${MOST_ROWS} rows in one go`, received: `${lines} lines` })
}

/** How many lines a text has; one row may hold several in quotes. */
export function countLines(text: string): number {
  let lines = 1
  for (let at = text.indexOf('\n'); at !== -1 && at < text.length - 1; at = text.indexOf('\n', at + 1)) lines += 1
  return lines
}

/** Reads as `readPastedCases` does, a few rows at a time: between two slices it gives the share done, and the caller may do something else. */
export function* readInSlices(text: string): Generator<number, PastedCases> {
  const large = tooMuch(text)
  if (large !== undefined) return { cases: [], exposures: [], issues: [large] }
  const parsed = Papa.parse<string[]>(text.trim(), { skipEmptyLines: 'greedy', preview: MOST_ROWS + 2 })
  const quote = parsed.errors.find(({ type }) => type === 'Quotes')
  if (quote !== undefined)
    return refused({ expected: 'every quotation mark closed', received: `an open one in row ${(quote.row ?? 0) + 1}` })
  const rows = parsed.data
  const head = headOf(rows[0] ?? [])
  const body = head === undefined ? rows : rows.slice(1)
  if (body.length > MOST_ROWS)
    return refused({ expected: `at most ${MOST_ROWS} rows in one go`, received: 'more than that' })
  const first = head === undefined ? 1 : 2
  const read = {
    cases: new Map<string, RowCase>(),
    exposures: [] as BodyOf<'exposure.recorded'>[],
    issues: [] as Issue[],
  }
  for (const [index, cells] of body.entries()) {
    if (index > 0 && index % ROWS_A_SLICE === 0) yield index / body.length
    const row = rowOf(cells, head ?? COLUMNS)
    const at = (found: readonly Issue[]): Issue[] =>
      found.map((each) => ({ ...each, path: `row ${index + first}, ${each.path || 'row'}` }))
    const one = caseOf(row)
    const before = one.body && read.cases.get(one.body.code)
    read.issues.push(...at(one.issues), ...at(before === undefined ? [] : otherThanBefore(row, before)))
    if (one.body !== undefined) read.cases.set(one.body.code, { row: { ...row, ...before?.row }, body: one.body })
    const exposure = exposureOf(row)
    read.issues.push(...at(exposure.issues))
    if (exposure.body !== undefined) read.exposures.push(exposure.body)
  }
  const cases = [...read.cases.values()].flatMap(({ row }) => caseOf(row).body ?? [])
  return { cases, exposures: read.exposures, issues: read.issues }
}

/** What the rows of one case say of it: the first word counts, an empty cell is filled from a later row. */
interface RowCase {
  readonly row: Row
  readonly body: BodyOf<'case.recorded'>
}

/** A case stands once: two rows may not say different things of it. */
function otherThanBefore(row: Row, before: RowCase): Issue[] {
  return (['onset', 'classification'] as const).flatMap((column) => {
    const [now, first] = [row[column]?.toLowerCase(), before.row[column]?.toLowerCase()]
    if (now === undefined || first === undefined || now === first) return []
    return [issue(column, { expected: `${first}, as an earlier row says of ${before.body.code}`, received: now })]
  })
}

function refused(told: { expected: string; received: string | number }): PastedCases {
  return { cases: [], exposures: [], issues: [statedIssue('rows', told)] }
}

function headOf(cells: readonly string[]): (Column | undefined)[] | undefined {
  const names = cells.map((cell) => COLUMNS.find((column) => cell.trim().toLowerCase().startsWith(column)))
  return names.filter((name) => name !== undefined).length >= 2 ? names : undefined
}

function rowOf(cells: readonly string[], columns: readonly (Column | undefined)[]): Row {
  const row: Row = {}
  for (const [index, column] of columns.entries()) {
    const cell = cells[index]?.trim() ?? ''
    if (column !== undefined && cell !== '') row[column] = cell
  }
  return row
}

function caseOf({ code, onset, classification }: Row): { body?: BodyOf<'case.recorded'>; issues: Issue[] } {
  if (code === undefined) return { issues: [issue('code', { expected: 'a case code', received: undefined })] }
  const wanted = classification?.toLowerCase() ?? 'suspected'
  const parsed = CASES_KINDS['case.recorded'].body.safeParse({
    code,
    ...(onset === undefined ? {} : { onsetDate: onset }),
    classification: CLASSIFICATIONS.find((each) => each === wanted) ?? classification,
  })
  const issues = [
    ...codeIssue(code, 'code'),
    ...(parsed.success ? [] : named(parsed.error, { onsetDate: onset, classification })),
  ]
  return issues.length === 0 && parsed.success ? { body: parsed.data, issues } : { issues }
}

function exposureOf({ code, place, kind, from, to, notes }: Row): {
  body?: BodyOf<'exposure.recorded'>
  issues: Issue[]
} {
  if (place === undefined && from === undefined && to === undefined) return { issues: [] }
  const wanted = kind?.toLowerCase() ?? 'stay'
  const given = {
    caseCode: code ?? '',
    place,
    kind: EXPOSURE_KINDS.find((each) => each === wanted) ?? kind,
    from,
    to: to ?? from,
    ...(notes === undefined ? {} : { notes }),
  }
  const parsed = CASES_KINDS['exposure.recorded'].body.safeParse(given)
  if (!parsed.success) return { issues: named(parsed.error, given).filter(({ path }) => path !== 'caseCode') }
  const { data } = parsed
  return data.to >= data.from
    ? { body: data, issues: [] }
    : { issues: [issue('to', { expected: `${data.from} or later`, received: data.to })] }
}

const WORDS: Readonly<Record<string, string>> = { onsetDate: 'onset' }

function named(error: Parameters<typeof issuesFromZod>[0], given: unknown): Issue[] {
  return issuesFromZod(error, given).map((found) => {
    const path = WORDS[found.path] ?? found.path
    const isDate = ['onset', 'from', 'to'].includes(path)
    return { ...found, path, expected: isDate ? 'a date as year-month-day, such as 2026-03-14' : found.expected }
  })
}
