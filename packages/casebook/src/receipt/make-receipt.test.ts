import { expect, test } from 'vitest'
import { checkSignature } from '../devices/signature.ts'
import { checkReceipt, receiptAgainstRecord, receiptContinues } from './check-receipt.ts'
import { makeReceipt } from './make-receipt.ts'
import type { Receipt } from './receipt.ts'
import { LABEL, OTHER_LABEL, signedRecord } from './receipt.fixture.ts'
import { recordTree } from './record-tree.ts'

const links = signedRecord()
const later = signedRecord('marram-house', 5)

function receiptOf(record: typeof links, since?: Receipt): Receipt {
  const made = makeReceipt(record, { sample: LABEL, since })
  if (!made.ok) throw new RangeError(JSON.stringify(made.issues))
  return made.receipt
}

const said = (issues: readonly { path: string; expected: string; received: string }[]) =>
  issues.map(({ path, expected, received }) => `${path}: ${expected} / ${received}`).join('\n')

test('[PRF3] a receipt holds every link that names the sample and what amends them, and the keys to check them, and no other', () => {
  const receipt = receiptOf(links)
  expect(receipt.proofs.map(({ leaf }) => leaf.sequence)).toEqual([3, 5, 6])
  expect(receipt.devices.map(({ leaf }) => leaf.sequence)).toEqual([2])
  expect(receipt.treeSize).toBe(links.length)
  expect(JSON.stringify(receipt)).not.toContain(OTHER_LABEL)
})

test('[PRF3] a receipt stands by itself: written to a file and read back, it holds', () => {
  const read = JSON.parse(JSON.stringify(receiptOf(links))) as unknown
  expect(checkReceipt(read, checkSignature)).toMatchObject({ ok: true })
})

test('[PRF4] a receipt agrees with its record, and with what the record became', () => {
  const receipt = receiptOf(links)
  const investigation = 'marram-house'
  expect(receiptAgainstRecord(receipt, { investigation, tree: recordTree(links) })).toEqual([])
  expect(receiptAgainstRecord(receipt, { investigation, tree: recordTree(later) })).toEqual([])
  const short = recordTree(links.slice(0, -1))
  expect(said(receiptAgainstRecord(receipt, { investigation, tree: short }))).toContain('cut short')
  const other = recordTree([...links.slice(0, 3), ...links.slice(2, 3), ...links.slice(4)])
  expect(said(receiptAgainstRecord(receipt, { investigation, tree: other }))).toContain('was altered')
  expect(said(receiptAgainstRecord(receipt, { investigation: 'quay-hotel', tree: recordTree(links) }))).toContain(
    'a receipt of quay-hotel',
  )
})

test('[PRF5] a later receipt made since an earlier one shows that nothing before was changed', () => {
  const earlier = receiptOf(links)
  const since = receiptOf(later, earlier)
  expect(checkReceipt(since, checkSignature)).toMatchObject({ ok: true })
  expect(receiptContinues(earlier, since)).toEqual([])
  expect(receiptContinues(earlier, earlier)).toEqual([])
  expect(said(receiptContinues(earlier, receiptOf(later)))).toContain('one that names no earlier one')
  expect(said(receiptContinues(since, earlier))).toContain('treeSize')
})

test('[PRF5] a receipt is not made since one that the record does not continue', () => {
  const earlier = receiptOf(later)
  const issues = (since: Receipt) => {
    const made = makeReceipt(links, { sample: LABEL, since })
    return made.ok ? 'made' : said(made.issues)
  }
  expect(issues(earlier)).toContain('since.treeSize')
  expect(issues({ ...receiptOf(links), rootHash: earlier.rootHash })).toContain('since.rootHash')
  expect(issues({ ...receiptOf(links), investigation: 'quay-hotel' })).toContain('since.investigation')
})

test('[PRF3] a label the record does not name gets no receipt', () => {
  const made = makeReceipt(links, { sample: 'MH-R1-99' })
  expect(made).toMatchObject({ ok: false, issues: [{ path: 'sample', received: '"MH-R1-99"' }] })
  expect(makeReceipt([], { sample: LABEL })).toMatchObject({ ok: false })
})
