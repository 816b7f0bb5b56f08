// FIPS 180-4 secure hash standard: NIST's published examples for SHA-256 (one block, two blocks, one million letters a).
// Known by: memory of the examples, and computed again here with the runtime's own OpenSSL, an implementation apart from ours.
import { createHash } from 'node:crypto'
import { genesisHash, sha256Of } from '@rillmark/casebook/chain/link.ts'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'

test.each([
  ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
  ['a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
])('message %#', (message, digest) => {
  expect(sha256Of(message)).toBe(digest)
})

test('any text has the digest an independent implementation gives it', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), (text) => {
      expect(sha256Of(text)).toBe(createHash('sha256').update(text, 'utf8').digest('hex'))
    }),
  )
})

test('the hash a record begins with can be computed by anyone from the format and the id', () => {
  const text = '{"format":"rillmark/record@1","investigation":"marram-house"}'
  expect(genesisHash('marram-house')).toBe(createHash('sha256').update(text).digest('hex'))
})
