import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { makeReceipt } from '@rillmark/casebook/receipt/make-receipt.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import { expect, test } from 'vitest'
import { LABEL, linked, packageOf, signedEntries } from './verify.fixture.ts'
import { verifyPackage } from './verify-package.ts'
import { verifyRecordKept } from './verify-record.ts'

const investigation = 'marram-house'
const entries = signedEntries(investigation)
const links = linked(entries)

function receiptOfSample(): Receipt {
  const made = makeReceipt(links, { sample: LABEL })
  if (!made.ok) throw new RangeError(JSON.stringify(made.issues))
  return made.receipt
}

test('[PRF4] a receipt that leaves out an entry of its sample gets one verdict of the record as kept and of its package', async () => {
  const whole = receiptOfSample()
  const last = whole.proofs.at(-1)?.leaf.sequence
  const less = { ...whole, proofs: whole.proofs.slice(0, -1) }
  for (const [receipt, paths] of [
    [whole, []],
    [less, [`receipt entry ${last}`]],
  ] as const) {
    const options = { checkSignature, receipts: [receipt] }
    const kept = await verifyRecordKept(links, { investigation, options })
    const packed = await verifyPackage(packageOf(entries), options)
    expect(kept.findings.map(({ path }) => path)).toEqual(paths)
    expect(kept.findings).toEqual(packed.findings)
  }
})
