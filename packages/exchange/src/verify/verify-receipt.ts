import type { CheckSignature } from '@rillmark/casebook/devices/signed-text.ts'
import { checkReceipt, receiptContinues } from '@rillmark/casebook/receipt/check-receipt.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import type { Link } from '@rillmark/casebook/chain/link.ts'
import { type Facts, foundIn, type Verdict, verdictOf } from './verdict.ts'

export interface ReceiptOptions {
  readonly checkSignature: CheckSignature
  /** an earlier receipt, sound in itself, that this one must continue */
  readonly earlier?: Receipt | undefined
}

/** Verifies a receipt alone, or as the continuation of an earlier one. */
export function verifyReceipt(
  input: unknown,
  { checkSignature, earlier }: ReceiptOptions,
): { verdict: Verdict; receipt?: Receipt } {
  const checked = checkReceipt(input, checkSignature)
  const issues = [
    ...(checked.ok ? [] : checked.issues),
    ...(earlier === undefined || checked.receipt === undefined ? [] : receiptContinues(earlier, checked.receipt)),
  ]
  const verdict = verdictOf({
    findings: foundIn('receipt', issues),
    looked: new Set(['receipt']),
    cautions: checked.receipt === undefined ? [] : cautionsOf(checked.receipt, earlier),
    facts: checked.receipt === undefined ? { kind: 'receipt' } : factsOf(checked.receipt),
  })
  return checked.ok ? { verdict, receipt: checked.receipt } : { verdict }
}

function cautionsOf({ proofs }: Receipt, earlier: Receipt | undefined): string[] {
  const unsigned = proofs.filter(({ leaf }) => (leaf as Link).entry.signature === undefined).length
  return [
    ...(earlier === undefined
      ? [
          'A receipt alone shows that its entries belong to one tree. Hold it against a package, or a later receipt, to see that the record still has them.',
        ]
      : []),
    'It holds what names the sample; that nothing else was said of it, only the whole record shows.',
    ...(unsigned === 0 ? [] : [`${unsigned} of ${proofs.length} entries are not signed.`]),
  ]
}

function factsOf({ investigation, sample, treeSize, rootHash, proofs }: Receipt): Facts {
  const signed = proofs.filter(({ leaf }) => (leaf as Link).entry.signature !== undefined).length
  return {
    kind: 'receipt',
    investigation,
    ...(sample === undefined ? {} : { sample }),
    entries: treeSize,
    root: rootHash,
    signed,
    unsigned: proofs.length - signed,
  }
}
