import { expect, test } from 'vitest'
import { headAfter, emptyHead, type Link, linkEntries } from '../chain/link.ts'
import { checkSignature } from '../devices/signature.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { testKey } from '../testing/test-key.ts'
import { checkReceipt } from './check-receipt.ts'
import { makeReceipt } from './make-receipt.ts'
import { LABEL, signedRecord } from './receipt.fixture.ts'

const { issuer, key, sign } = testKey('the server')
const at = '2026-03-05T10:00:00.000Z'

/** The record, and the server's joining after it. */
function withServer(): Link[] {
  const links = signedRecord()
  const { make } = entryMaker('marram-house', { device: 'server' })
  const joined = sign(make('device.joined', { name: 'Server', role: 'server', key }))
  const head = headAfter(emptyHead('marram-house'), links)
  return [...links, ...linkEntries(head, { entries: [joined], received: at })]
}

function given(links: readonly Link[]) {
  const made = makeReceipt(links, { sample: LABEL, given: { issuer, at } })
  if (!made.ok) throw new RangeError(JSON.stringify(made.issues))
  return made.receipt
}

test('[PRF11] a receipt says when and by whose key it was given, holds, and brings how the server joined where the record says so', () => {
  const receipt = given(withServer())
  expect(receipt.issued).toEqual({ at, key })
  expect(receipt.signature?.key).toBe(issuer.thumbprint)
  expect(receipt.devices.map(({ leaf }) => (leaf.entry as { device: string }).device)).toEqual(['phone-1', 'server'])
  expect(checkReceipt(JSON.parse(JSON.stringify(receipt)), checkSignature)).toMatchObject({ ok: true })
  const unknown = given(signedRecord())
  expect(unknown.devices).toHaveLength(1)
  expect(checkReceipt(unknown, checkSignature)).toMatchObject({ ok: true })
})

test('[PRF11] what a signed receipt says can’t be changed, nor who signed it', () => {
  const receipt = given(withServer())
  const { signature, issued, ...rest } = receipt
  const told = (input: unknown) => {
    const checked = checkReceipt(input, checkSignature)
    return checked.ok ? [] : checked.issues.map(({ path, received }) => `${path}: ${received}`)
  }
  expect(told({ ...receipt, issued: { at: '2026-03-04T10:00:00.000Z', key } })).toEqual([
    'signature: one that does not fit what the receipt says',
  ])
  expect(told({ ...rest, issued })).toEqual(['signature: none'])
  expect(told({ ...rest, signature })).toEqual(['issued: a signature without it'])
  expect(told({ ...receipt, issued: { at, key: testKey('a stranger').key } })).toEqual([
    'signature.key: the name of another key',
  ])
  // without either it is one that nobody signed for giving, and the verifier says so
  expect(told(rest)).toEqual([])
})
