import type { CheckSignature } from '@rillmark/casebook/devices/signed-text.ts'
import { checkReceipt, receiptContinues } from '@rillmark/casebook/receipt/check-receipt.ts'
import { serverJoin } from '@rillmark/casebook/receipt/issuer.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import type { Link } from '@rillmark/casebook/chain/link.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { prettyJson } from '../package/derived-files.ts'
import { type Facts, foundIn, type Verdict, verdictOf } from './verdict.ts'

export interface ReceiptOptions {
  readonly checkSignature: CheckSignature
  /** an earlier receipt, sound in itself, that this one must continue */
  readonly earlier?: Receipt | undefined
  /** the text it was read from: a receipt is written one way only, so that nobody reads it another way */
  readonly written?: string | undefined
}

/** Verifies a receipt alone, or as the continuation of an earlier one. */
export function verifyReceipt(
  input: unknown,
  { checkSignature, earlier: before, written }: ReceiptOptions,
): { verdict: Verdict; receipt?: Receipt } {
  const checked = checkReceipt(input, checkSignature)
  const earlier = comparable(before, checked.receipt)
  const issues = [
    ...writtenIssues(input, { written, read: checked.ok }),
    ...(checked.ok ? [] : checked.issues),
    ...(earlier === undefined || checked.receipt === undefined ? [] : receiptContinues(earlier, checked.receipt)),
  ]
  const verdict = verdictOf({
    findings: foundIn('receipt', issues),
    looked: new Set(['receipt']),
    cautions: checked.receipt === undefined ? [] : cautionsOf(checked.receipt, { earlier, before }),
    facts: checked.receipt === undefined ? { kind: 'receipt' } : factsOf(checked.receipt),
  })
  return verdict.findings.length === 0 && checked.ok ? { verdict, receipt: checked.receipt } : { verdict }
}

/** A later receipt that names no earlier one can't be held against it, which is no fault of either. */
function comparable(before: Receipt | undefined, receipt: Receipt | undefined): Receipt | undefined {
  if (before === undefined || receipt === undefined) return undefined
  return receipt.since === undefined && receipt.treeSize !== before.treeSize ? undefined : before
}

function writtenIssues(input: unknown, { written, read }: { written: string | undefined; read: boolean }): Issue[] {
  if (!read || written === undefined || written === prettyJson(input)) return []
  return [statedIssue('', { expected: 'to be written as a receipt is', received: 'the same said otherwise' })]
}

interface Others {
  readonly earlier: Receipt | undefined
  readonly before: Receipt | undefined
}

function cautionsOf(receipt: Receipt, { earlier, before }: Others): string[] {
  const { proofs } = receipt
  const unsigned = proofs.filter(({ leaf }) => (leaf as Link).entry.signature === undefined).length
  return [
    ...(earlier === undefined
      ? [
          'A receipt alone shows that its entries belong to one tree. Hold it against a package, or a later receipt, to see that the record still has them.',
        ]
      : []),
    ...(before !== undefined && earlier === undefined
      ? [
          `It was not made since the receipt of ${before.treeSize} entries beside it: whether the record goes on from there can’t be told.`,
        ]
      : []),
    'It holds what names this label; that nothing else was said of it, only the whole record shows.',
    ...issuerCaution(receipt),
    ...(unsigned === 0 ? [] : [`${unsigned} of ${proofs.length} entries are not signed.`]),
  ]
}

/** How the server that gave it joined, where it says so. */
function joinOfIssuer({ devices, signature }: Receipt): Link | undefined {
  const joins = devices.map(({ leaf }) => leaf as Link)
  return signature === undefined ? undefined : serverJoin(joins, signature.key)
}

function issuerCaution(receipt: Receipt): string[] {
  if (receipt.signature === undefined)
    return ['Nobody signed for having given it: anyone who held the record could have made it.']
  if (joinOfIssuer(receipt) !== undefined) return []
  return [
    'No entry in it says whose key it was given with: have who gave it read out the key their server shows under Devices, and compare.',
  ]
}

function factsOf(receipt: Receipt): Facts {
  const { investigation, sample, treeSize, rootHash, proofs } = receipt
  const signed = proofs.filter(({ leaf }) => (leaf as Link).entry.signature !== undefined).length
  return {
    kind: 'receipt',
    investigation,
    ...(sample === undefined ? {} : { sample }),
    entries: treeSize,
    root: rootHash,
    signed,
    unsigned: proofs.length - signed,
    ...issuerFacts(receipt),
  }
}

function issuerFacts(receipt: Receipt): Partial<Facts> {
  const { issued, signature } = receipt
  if (issued === undefined || signature === undefined) return {}
  const join = joinOfIssuer(receipt)
  const givenBy =
    join === undefined
      ? 'a key that no entry in it names'
      : `the server of this record, joined in entry ${join.sequence}`
  return { givenBy, givenAt: issued.at, givenKey: signature.key }
}
