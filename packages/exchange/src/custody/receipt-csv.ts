import { CONDITIONS } from '@rillmark/casebook/custody/kinds.ts'
import type { ReceiptForm } from '@rillmark/casebook/custody/receipt-form.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { csvOf } from '../package/csv.ts'

export const RECEIPT_FORMAT = 'rillmark/consignment-receipt@1'

/** What the head of the form asks for, one a row: its name in the first cell, the answer in the second. */
export const RECEIPT_HEAD = {
  format: 'format',
  consignment: 'consignment',
  seal: 'seal on record',
  laboratory: 'laboratory',
  name: 'received by, name',
  role: 'received by, role',
  date: 'received on (YYYY-MM-DD)',
  time: 'received at (HH:MM, 24 h)',
  offset: 'offset from UTC',
  sealIntact: 'seal whole (yes or no)',
  sealRead: 'number on the seal as read',
  temperature: 'temperature on arrival',
  unit: 'unit of temperature (C or F)',
} as const

export const RECEIPT_COLUMNS = [
  'label',
  'sample kind',
  'collected (local)',
  'condition',
  'examined (yes or no)',
  'notes',
] as const

/**
 * The receipt of one consignment as a table a laboratory fills in and sends back (CSV, RFC 4180): a head of questions, then a row for every sample.
 * `rillmark/consignment-receipt@1`, described in docs/custody.md.
 */
export function receiptCsv(form: ReceiptForm, { offset }: { offset: string }): string {
  const head: [string, string][] = [
    [RECEIPT_HEAD.format, RECEIPT_FORMAT],
    [RECEIPT_HEAD.consignment, form.consignment],
    [RECEIPT_HEAD.seal, form.seal ?? ''],
    [RECEIPT_HEAD.laboratory, ''],
    [RECEIPT_HEAD.name, ''],
    [RECEIPT_HEAD.role, ''],
    [RECEIPT_HEAD.date, ''],
    [RECEIPT_HEAD.time, ''],
    [RECEIPT_HEAD.offset, `UTC${offset}`],
    [RECEIPT_HEAD.sealIntact, ''],
    [RECEIPT_HEAD.sealRead, ''],
    [RECEIPT_HEAD.temperature, ''],
    [RECEIPT_HEAD.unit, 'C'],
    ['condition is one of', CONDITIONS.join(' / ')],
  ]
  const [first = ['', ''], ...rest] = head
  const samples = form.samples.map(({ label, kind, collectedAt, offset: there }) => [
    label,
    kind,
    wallClock({ instant: collectedAt, offset: there }),
    '',
    '',
    '',
  ])
  return `${csvOf(first, rest)}\r\n${csvOf(RECEIPT_COLUMNS, samples)}`
}
