import { makeReceipt } from '@rillmark/casebook/receipt/make-receipt.ts'
import { receiptJson } from '@rillmark/exchange/receipt/receipt-json.ts'
import { receiptPdf } from '@rillmark/exchange/receipt/receipt-pdf.ts'
import * as z from 'zod'
import { type DocumentContext, documentKind, type Made } from './document-kind.ts'

const query = z.strictObject({ sample: z.string().trim().min(1).max(40) })
type Query = z.infer<typeof query>

const fileName =
  (ending: string) =>
  ({ investigation, query: { sample } }: { investigation: string; query: Query }): string =>
    `${investigation}-${sample.toLowerCase().replace(/[^a-z0-9]+/g, '-')}-receipt.${ending}`

function receiptOf(
  { links, query: { sample }, hand }: DocumentContext<Query>,
  write: (receipt: Parameters<typeof receiptJson>[0]) => Made,
): Made {
  const made = makeReceipt(links, { sample, given: { issuer: hand.key(), at: hand.now() } })
  return made.ok ? write(made.receipt) : { issues: made.issues }
}

export const receiptJsonDocument = documentKind({
  title: 'Receipt of a sample: its entries, proved to be in the record',
  contentType: 'application/json; charset=utf-8',
  fileName: fileName('json'),
  query,
  make: (context) => receiptOf(context, receiptJson),
})

export const receiptPdfDocument = documentKind({
  title: 'Receipt of a sample, as a page to keep',
  contentType: 'application/pdf',
  fileName: fileName('pdf'),
  query,
  heavy: true,
  make: (context) => receiptOf(context, receiptPdf),
})
