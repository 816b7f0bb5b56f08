import { type Arrival, CONDITIONS } from '@rillmark/casebook/custody/kinds.ts'
import { type ReceiptBody, receiptBodySchema, type ReceiptForm } from '@rillmark/casebook/custody/receipt-form.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import Papa from 'papaparse'
import { plainCell } from '../package/csv.ts'
import { fileText } from '../results/file-text.ts'
import { delimiterOf } from '../results/read-csv.ts'
import { readNumber } from '../results/read-number.ts'
import { loggerTime } from './logger-time.ts'
import { RECEIPT_COLUMNS, RECEIPT_FORMAT, RECEIPT_HEAD } from './receipt-csv.ts'

/** What a form says of the box, as far as it could be read. */
interface HeadRead {
  readonly laboratory: string
  readonly receivedBy: { readonly name: string; readonly role: string }
  readonly sealIntact?: boolean
  readonly sealRead?: string
  readonly temperatureC?: number
  readonly at?: string
}

/** What could be read of a form that is not whole: for a person to complete. */
export interface PartlyRead extends HeadRead {
  readonly samples: readonly Arrival[]
}

export type ReceiptReading =
  | { readonly ok: true; readonly receipt: ReceiptBody }
  | { readonly ok: false; readonly issues: readonly Issue[]; readonly read?: PartlyRead }

interface Line {
  readonly line: number
  readonly cells: readonly string[]
}

export const RECEIPT_FILE_BYTES = 1_000_000

/**
 * Reads a receipt that a laboratory filled in, against the consignment it is for. Every row is checked, every problem told at once with its
 * line; nothing is supposed: a sample without a condition is a problem, not accepted.
 */
export function readReceiptCsv(bytes: Uint8Array, form: ReceiptForm): ReceiptReading {
  if (bytes.length > RECEIPT_FILE_BYTES)
    return wrong([issue('file', { expected: 'at most 1 MB', received: bytes.length })])
  const { text } = fileText(bytes)
  const lines = linesOf(text)
  const split = lines.findIndex(({ cells }) => isHeading(cells))
  const head = new Map(lines.slice(0, Math.max(0, split)).map((one) => [one.cells[0]?.toLowerCase() ?? '', one]))
  const format = head.get(RECEIPT_HEAD.format)?.cells[1]
  if (split < 0 || format !== RECEIPT_FORMAT)
    return wrong([
      issue('file', {
        expected: `a receipt form of this program (${RECEIPT_FORMAT}), with its row of headings`,
        received: lines[0]?.cells.join(' ').slice(0, 80) ?? 'an empty file',
      }),
    ])
  const issues: Issue[] = []
  const read = { ...readHead(head, { form, issues }), samples: readSamples(lines.slice(split), { form, issues }) }
  if (issues.length > 0) return { ok: false, issues, read }
  const parsed = receiptBodySchema.safeParse(read)
  if (parsed.success) return { ok: true, receipt: parsed.data }
  return wrong(
    parsed.error.issues.map(({ path, message }) => issue(path.join('.'), { expected: message, received: undefined })),
  )
}

function linesOf(text: string): Line[] {
  let line = 1
  return Papa.parse<string[]>(text, { delimiter: headDelimiter(text) }).data.flatMap((row) => {
    const at = line
    line += 1 + row.reduce((breaks, cell) => breaks + (cell.match(/\r\n|\n|\r/g)?.length ?? 0), 0)
    const cells = row.map((cell) => plainCell(cell.trim()).trim())
    return cells.every((cell) => cell === '') ? [] : [{ line: at, cells }]
  })
}

/** The delimiter stands right after the first word; a spreadsheet may have changed it. */
function headDelimiter(text: string): string {
  return /^\s*"?format"?\s*([,;\t|])/i.exec(text)?.[1] ?? delimiterOf(text)
}

function isHeading(cells: readonly string[]): boolean {
  const names = cells.map((cell) => cell.toLowerCase())
  return names.includes('label') && names.includes('condition')
}

type Head = ReadonlyMap<string, Line>

function readHead(head: Head, { form, issues }: { form: ReceiptForm; issues: Issue[] }): HeadRead {
  const answer = (name: string): string => head.get(name.toLowerCase())?.cells[1] ?? ''
  const at = (name: string): string => {
    const line = head.get(name.toLowerCase())?.line
    return line === undefined ? name : `line ${line}, ${name}`
  }
  const needed = (name: string): string => {
    const text = answer(name)
    if (text === '') issues.push(issue(at(name), { expected: 'an answer', received: undefined }))
    return text
  }
  if (answer(RECEIPT_HEAD.consignment) !== form.consignment)
    issues.push(
      issue(at(RECEIPT_HEAD.consignment), { expected: form.consignment, received: answer(RECEIPT_HEAD.consignment) }),
    )
  const sealIntact = yesOrNo(needed(RECEIPT_HEAD.sealIntact))
  if (sealIntact === undefined && answer(RECEIPT_HEAD.sealIntact) !== '')
    issues.push(
      issue(at(RECEIPT_HEAD.sealIntact), { expected: 'yes or no', received: answer(RECEIPT_HEAD.sealIntact) }),
    )
  const sealRead = answer(RECEIPT_HEAD.sealRead)
  const instant = instantOf({
    date: needed(RECEIPT_HEAD.date),
    time: needed(RECEIPT_HEAD.time),
    offset: answer(RECEIPT_HEAD.offset),
    notBefore: lastCollected(form),
  })
  if (typeof instant === 'object') issues.push(issue(at(RECEIPT_HEAD.date), instant))
  const temperature = temperatureOf(answer(RECEIPT_HEAD.temperature), answer(RECEIPT_HEAD.unit))
  if (typeof temperature === 'object') issues.push(issue(at(RECEIPT_HEAD.temperature), temperature))
  return {
    laboratory: needed(RECEIPT_HEAD.laboratory),
    receivedBy: { name: needed(RECEIPT_HEAD.name), role: needed(RECEIPT_HEAD.role) },
    ...(sealIntact === undefined ? {} : { sealIntact }),
    ...(sealRead === '' ? {} : { sealRead }),
    ...(typeof temperature === 'number' ? { temperatureC: temperature } : {}),
    ...(typeof instant === 'string' ? { at: instant } : {}),
  }
}

function readSamples(lines: readonly Line[], { form, issues }: { form: ReceiptForm; issues: Issue[] }): Arrival[] {
  const [heading, ...rows] = lines
  const names = heading?.cells.map((cell) => cell.toLowerCase()) ?? []
  const column = (name: (typeof RECEIPT_COLUMNS)[number]) => names.indexOf(name)
  const cell = ({ cells }: Line, name: (typeof RECEIPT_COLUMNS)[number]): string => cells[column(name)] ?? ''
  const expected = new Set(form.samples.map(({ label }) => label))
  const seen = new Map<string, number>()
  const arrivals: Arrival[] = []
  for (const row of rows) {
    const label = labelOf(cell(row, 'label'), expected)
    const at = `line ${row.line}`
    if (!expected.has(label)) {
      issues.push(issue(`${at}, label`, { expected: `a sample of ${form.consignment}`, received: label }))
      continue
    }
    const before = seen.get(label)
    if (before !== undefined)
      issues.push(issue(`${at}, label`, { expected: 'each sample once', received: `${label}, also in line ${before}` }))
    seen.set(label, row.line)
    const arrival = arrivalOf(label, {
      condition: cell(row, 'condition'),
      examined: cell(row, 'examined (yes or no)'),
      notes: cell(row, 'notes'),
    })
    if ('issues' in arrival) for (const each of arrival.issues) issues.push({ ...each, path: `${at}, ${each.path}` })
    else arrivals.push(arrival)
  }
  for (const label of expected)
    if (!seen.has(label)) issues.push(issue('samples', { expected: `a row for ${label}`, received: undefined }))
  return arrivals
}

/** As printed, whatever case or dashes a spreadsheet left of it. */
function labelOf(text: string, expected: ReadonlySet<string>): string {
  if (expected.has(text)) return text
  const bare = (label: string): string => label.toUpperCase().replace(/[\s\p{Pd}_]/gu, '')
  return [...expected].find((label) => bare(label) === bare(text)) ?? text
}

function arrivalOf(
  label: string,
  said: { condition: string; examined: string; notes: string },
): Arrival | { issues: Issue[] } {
  const condition = CONDITIONS.find((each) => each === said.condition.toLowerCase())
  const examined = said.examined === '' ? undefined : yesOrNo(said.examined)
  const issues: Issue[] = []
  if (condition === undefined)
    issues.push(issue('condition', { expected: `one of ${CONDITIONS.join(', ')}`, received: said.condition }))
  if (said.examined !== '' && examined === undefined)
    issues.push(issue('examined', { expected: 'yes or no', received: said.examined }))
  if (condition === 'not in the box' && examined === true)
    issues.push(issue('examined', { expected: 'no, for a sample that is not in the box', received: said.examined }))
  if (condition === 'accepted' && examined === false)
    issues.push(issue('condition', { expected: 'why it is not examined', received: 'accepted' }))
  if (condition !== undefined && condition !== 'accepted' && said.examined === '')
    issues.push(issue('examined', { expected: 'yes or no for a sample not simply accepted', received: undefined }))
  if (condition === undefined || issues.length > 0) return { issues }
  return {
    label,
    condition,
    ...(condition === 'accepted' ? {} : { rejected: examined === false }),
    ...(said.notes === '' ? {} : { notes: said.notes }),
  }
}

function yesOrNo(text: string): boolean | undefined {
  const word = text.trim().toLowerCase()
  if (['yes', 'y', 'true', '1'].includes(word)) return true
  return ['no', 'n', 'false', '0'].includes(word) ? false : undefined
}

type Wrong = { expected: string; received: string }

interface Moment {
  readonly date: string
  readonly time: string
  readonly offset: string
  /** no box is received before its last sample was collected */
  readonly notBefore: number
}

/** The instant of a local date and time; what is wrong with it; undefined while a half is missing, which is told elsewhere. */
function instantOf({ date, time, offset: written, notBefore }: Moment): string | Wrong | undefined {
  if (date === '' || time === '') return undefined
  const offset = /([+-]\d{2}:\d{2})$/.exec(written.replace('−', '-'))?.[1]
  const received = `${date} ${time} ${written}`
  if (offset === undefined) return { expected: 'an offset such as UTC+01:00', received }
  const orders = ['day-month-year', 'month-day-year'] as const
  const readings = new Set(orders.flatMap((order) => loggerTime(`${date} ${time}`, { order, offset }) ?? []))
  const [atMs, another] = [...readings].filter((each) => readings.size === 1 || each >= notBefore)
  if (atMs === undefined) return { expected: 'a date as 2026-03-14 and a time as 09:40', received }
  // a spreadsheet rewrote it, and nothing says in which order
  if (another !== undefined)
    return { expected: 'a date as 2026-03-14: day and month may stand either way round', received }
  return new Date(atMs).toISOString()
}

function lastCollected({ samples }: ReceiptForm): number {
  return Math.max(...samples.map(({ collectedAt }) => Date.parse(collectedAt)))
}

function temperatureOf(text: string, unit: string): number | Wrong | undefined {
  if (text === '') return undefined
  const read = readNumber(text.replace(/\s*°?\s*[CF]\s*$/i, ''), text.includes(',') ? 'comma' : 'point')
  const scale = unit.replace('°', '').trim().toUpperCase()
  if (read.kind !== 'number' || (scale !== 'C' && scale !== 'F'))
    return { expected: 'a number, and C or F for its unit', received: `${text} ${unit}` }
  return scale === 'C' ? read.value : Math.round(((read.value - 32) / 1.8) * 100) / 100
}

const wrong = (issues: readonly Issue[]): ReceiptReading => ({ ok: false, issues })
