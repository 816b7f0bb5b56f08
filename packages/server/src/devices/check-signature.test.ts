import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { quickSignatureCheck } from './check-signature.ts'

const quick = quickSignatureCheck()
const { key, signText } = testKey('a device')

test('[SRV21] two implementations say the same of any signature, text and key, sound or not', () => {
  const text = fc.constantFrom('{"said":"x"}', '{"said":"é"}', '')
  const value = fc.oneof(
    text.map(signText),
    fc.string(),
    fc.uint8Array({ minLength: 64, maxLength: 64 }).map((bytes) => Buffer.from(bytes).toString('base64url')),
    text.map((each) => `${signText(each).slice(0, -1)}A`),
    text.map((each) => signText(each).slice(2)),
  )
  const keys = fc.constantFrom(key, testKey('another').key, { ...key, x: key.y }, { ...key, y: 'A'.repeat(43) })
  fc.assert(
    fc.property(text, value, keys, (said, signature, by) => {
      const asked = { text: said, value: signature, key: by }
      expect(quick(asked)).toBe(checkSignature(asked))
    }),
    { numRuns: 60, seed: 20260302 },
  )
  expect(quick({ text: 'x', value: signText('x'), key })).toBe(true)
})
