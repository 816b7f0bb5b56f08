import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import type { Variant } from '@rillmark/casebook/report/model.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { type FetchedDocument, fetchDocument } from '../store/fetch-document.ts'
import { unitsKept, unitsQuery } from '../store/reader-units.ts'
import { serverHead } from './server-head.ts'

export const DOCUMENT_OF: Readonly<Record<Variant, string>> = { full: 'report.pdf', redacted: 'report-redacted.pdf' }

export type Prepared =
  | {
      readonly ok: true
      readonly body: Omit<BodyOf<'report.issued'>, 'issuedTo'>
      readonly document: Extract<FetchedDocument, { ok: true }>
    }
  | { readonly ok: false; readonly message: string }

const UNREACHED =
  'The server can’t be reached, and the report is made there. Nothing is lost; try again when it answers.'
const GROWN = 'The record grew while the report was made, so nothing was issued. Try again.'

/**
 * The report's bytes with their hash and the head they speak of. The head is asked for before and after: only where both are the record as
 * this device shows it do the bytes belong to it.
 */
export async function prepareReport(asked: {
  readonly investigation: string
  readonly variant: Variant
  readonly units: DisplayUnits
  /** how many entries this device shows */
  readonly entries: number
}): Promise<Prepared> {
  const { investigation, variant, units, entries } = asked
  const before = await serverHead(investigation, entries)
  if (before === undefined) return { ok: false, message: UNREACHED }
  if (before.sequence !== entries)
    return {
      ok: false,
      message:
        'The server’s record and this device’s differ for a moment. Wait until they are the same, then try again.',
    }
  const document = await fetchDocument({ investigation, kind: DOCUMENT_OF[variant], query: unitsQuery(units) })
  if (!document.ok) return document
  const after = await serverHead(investigation, entries)
  if (after?.hash !== before.hash) return { ok: false, message: after === undefined ? UNREACHED : GROWN }
  const sha256 = sha256OfBytes(new Uint8Array(await document.blob.arrayBuffer()))
  const body = { variant, headSequence: before.sequence, headHash: before.hash, sha256, ...unitsKept(units) }
  return { ok: true, document, body }
}
