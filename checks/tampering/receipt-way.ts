// oxlint-disable typescript/no-explicit-any -- a forger writes anything anywhere
import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { makeReceipt, type ReceiptRequest } from '@rillmark/casebook/receipt/make-receipt.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { LABEL, linked, OTHER_LABEL } from '@rillmark/exchange/verify/verify.fixture.ts'
import { NOTE, nextBy, signedBy } from './forge.ts'
import { entries, links, otherEntries } from './package-way.ts'

/** One way to tamper with a receipt, or with what it is held against. */
export interface ReceiptWay {
  readonly title: string
  /** what must stand in the finding */
  readonly names: string
  readonly tamper: () => Attempt
}

/** What is brought to the verifier. */
export interface Attempt {
  readonly receipt?: unknown
  /** a receipt that comes beside it, sound by itself */
  readonly beside?: unknown
  readonly package?: Uint8Array
}

/** A receipt as a forger sees it. */
export type LooseReceipt = Omit<Receipt, 'proofs' | 'devices' | 'since' | 'issued' | 'signature'> & {
  proofs: { leaf: LooseLink; path: string[] }[]
  devices: { leaf: LooseLink; path: string[] }[]
  since: { treeSize: number; rootHash: string; path: string[] }
  issued: { at: string; key: Record<string, string> }
  signature: { key: string; value: string }
} & Record<string, unknown>

type LooseLink = Omit<Link, 'entry'> & { entry: Record<string, any> } & Record<string, unknown>

function receiptOf(
  record: readonly Link[],
  { sample = LABEL, since, given }: Partial<ReceiptRequest> & { since?: Receipt } = {},
): Receipt {
  const made = makeReceipt(record, { sample, since, given })
  if (!made.ok) throw new RangeError(JSON.stringify(made.issues))
  return made.receipt
}

/** The record some entries later. */
export const grownEntries = [1, 2, 3, 4, 5].reduce<readonly Entry[]>((list, n) => {
  const more = nextBy('desk-1', NOTE)
  const next = { ...more, deviceSequence: more.deviceSequence + n - 1, id: `1000000${n}-0000-8000-8000-000000000000` }
  return [...list, signedBy('desk-1', next) as unknown as Entry]
}, entries)
export const grown = linked(grownEntries)

export const receipt = receiptOf(links)
export const otherSample = receiptOf(links, { sample: OTHER_LABEL })
export const foreign = receiptOf(linked(otherEntries))
export const later = receiptOf(grown, { since: receipt })
export const laterAlone = receiptOf(grown)
/** The same, signed by the server, which joined in entry 2. */
export const byServer = { issuer: testKey('server').issuer, at: '2026-03-02T13:00:00.000Z' }
export const given = receiptOf(links, { given: byServer })
export const givenLater = receiptOf(grown, { since: receipt, given: byServer })
export { receiptOf }

/** The receipt with something changed. */
export function changed(change: (loose: LooseReceipt) => void, from: Receipt = receipt): Attempt {
  const copy = structuredClone(from) as unknown as LooseReceipt
  change(copy)
  return { receipt: copy }
}

/** Its first proof (entry 8) with something changed. */
export function proof(change: (first: LooseReceipt['proofs'][number]) => void): Attempt {
  return changed(({ proofs: [first] }) => {
    if (first === undefined) throw new RangeError('Cannot tamper because the receipt proves nothing')
    change(first)
  })
}

export const flip = (hash: string): string => `${hash.startsWith('0') ? '1' : '0'}${hash.slice(1)}`
