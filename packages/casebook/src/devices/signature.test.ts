import { createHash, createPublicKey, generateKeyPairSync, sign, verify } from 'node:crypto'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { entryMaker } from '../testing/entry-maker.ts'
import { testKey } from '../testing/test-key.ts'
import { fromBase64url, toBase64url } from './base64url.ts'
import type { DeviceKey } from './kinds.ts'
import { checkSignature } from './signature.ts'
import { signedText, thumbprint } from './signed-text.ts'

const hex = (text: string): string => toBase64url(Uint8Array.from(Buffer.from(text, 'hex')))

// RFC 6979, appendix A.2.5: ECDSA on P-256 with SHA-256. The RFC itself was not read here; its figures were seen as several public test
// suites quote them, all alike.
const RFC_6979_KEY: DeviceKey = {
  kty: 'EC',
  crv: 'P-256',
  x: hex('60FED4BA255A9D31C961EB74C6356D68C049B8923B61FA6CE669622E60F29FB6'),
  y: hex('7903FE1008B8BC99A41AE9E95628BC64F2F1B20C2D7E9F5177A3C294D4462299'),
}
const RFC_6979 = [
  {
    text: 'sample',
    r: 'EFD48B2AACB6A8FD1140DD9CD45E81D69D2C877B56AAF991C34D0EA84EAF3716',
    s: 'F7CB1C942D657C41D436C7A1B6E29F65F3E900DBB9AFF4064DC4AB2F843ACDA8',
  },
  {
    text: 'test',
    r: 'F1ABB023518351CD71D881567B1EA663ED3EFCF6C5132B354F28D3B0B7D38367',
    s: '019F4113742A2B14BD25926B49C649155F267E60D3814B4C0CC84250E46F0083',
  },
]

test.each(RFC_6979)('[DEV2] the published signature of "$text" holds, and of nothing else', ({ text, r, s }) => {
  const value = hex(r + s)
  expect(checkSignature({ text, value, key: RFC_6979_KEY })).toBe(true)
  expect(checkSignature({ text: `${text} `, value, key: RFC_6979_KEY })).toBe(false)
  expect(checkSignature({ text, value: hex(s + r), key: RFC_6979_KEY })).toBe(false)
  expect(checkSignature({ text, value, key: testKey('another').key })).toBe(false)
})

test('[DEV2] the example of a JSON Web Signature by ES256 holds', () => {
  // RFC 7515, appendix A.3; from memory, and it holds
  const key: DeviceKey = {
    kty: 'EC',
    crv: 'P-256',
    x: 'f83OJ3D2xF1Bg8vub9tLe1gHMzV76e8Tus9uPHvRVEU',
    y: 'x_FEzRu9m36HLN_tue659LNpXW6pCyStikYjKIWI5a0',
  }
  const text =
    'eyJhbGciOiJFUzI1NiJ9.eyJpc3MiOiJqb2UiLA0KICJleHAiOjEzMDA4MTkzODAsDQogImh0dHA6Ly9leGFtcGxlLmNvbS9pc19yb290Ijp0cnVlfQ'
  const value = 'DtEhU3ljbEg8L38VWAfUAqOyKAM6-Xx-F4GawxaepmXFCgfTjDxw5djxLa8ISlSApmWQxfKTUJqPP3-Kg6NU1Q'
  expect(checkSignature({ text, value, key })).toBe(true)
})

test('[DEV2] what another implementation signs holds here, and what is signed here holds there', () => {
  // node:crypto is OpenSSL
  const { privateKey, publicKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const { x = '', y = '' } = publicKey.export({ format: 'jwk' }) as { x?: string; y?: string }
  const ours = testKey('ours')
  const theirs = createPublicKey({ key: { ...ours.key }, format: 'jwk' })
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const value = sign('sha256', Buffer.from(text), { key: privateKey, dsaEncoding: 'ieee-p1363' })
      const here = checkSignature({ text, value: value.toString('base64url'), key: { kty: 'EC', crv: 'P-256', x, y } })
      const signature = Buffer.from(ours.signText(text), 'base64url')
      const there = verify('sha256', Buffer.from(text), { key: theirs, dsaEncoding: 'ieee-p1363' }, signature)
      expect([here, there]).toEqual([true, true])
    }),
    { numRuns: 12 },
  )
})

const { value: sound } = testKey('ours').sign({ said: 'x' }).signature
test.each([
  ['nothing', ''],
  ['no base64url', '!'.repeat(86)],
  ['too little', sound.slice(0, -4)],
  ['too much', `${sound}AAAA`],
  ['zeros', 'A'.repeat(86)],
  ['the largest numbers', `${'_'.repeat(85)}w`],
])('[DEV2] %s is no signature and nothing is thrown', (_, value) => {
  const { key } = testKey('ours')
  expect(checkSignature({ text: '{"said":"x"}', value, key })).toBe(false)
  expect(checkSignature({ text: '{"said":"x"}', value: sound, key })).toBe(true)
})

test('[DEV2] a key that is no point of the curve checks nothing', () => {
  const { key } = testKey('ours')
  for (const bad of [{ x: key.y }, { y: 'A'.repeat(43) }, { x: '!' }, { y: '' }])
    expect(checkSignature({ text: '{"said":"x"}', value: sound, key: { ...key, ...bad } })).toBe(false)
})

test('[DEV1] what is signed is the canonical JSON of the entry without its signature', () => {
  const entry = entryMaker('marram-house').make('note.written', { text: 'é', purpose: 'note' })
  const text = signedText(entry)
  expect(JSON.parse(text)).toEqual(entry)
  expect(signedText(testKey('x').sign(entry))).toBe(text)
  expect(signedText(Object.fromEntries(Object.entries(entry).toReversed()))).toBe(text)
})

test('[DEV1] a key is named by its thumbprint: SHA-256 of its needed members in the order of their names', () => {
  // RFC 7638, section 3.2 (from memory): crv, kty, x, y for an EC key; written here by hand and hashed by node:crypto
  const { x, y } = RFC_6979_KEY
  const want = createHash('sha256').update(`{"crv":"P-256","kty":"EC","x":"${x}","y":"${y}"}`).digest('hex')
  expect(thumbprint(RFC_6979_KEY)).toBe(want)
  expect(thumbprint({ ...RFC_6979_KEY, use: 'sig', kid: 'a' } as DeviceKey)).toBe(want)
})

test('base64url is that of another implementation, and one text only is read for the same bytes', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 70 }), (bytes) => {
      const text = Buffer.from(bytes).toString('base64url')
      expect(toBase64url(bytes)).toBe(text)
      expect(fromBase64url(text)).toEqual(Uint8Array.from(bytes))
    }),
  )
  for (const odd of ['A', 'AB', 'AAB', 'AA==', 'A+A', 'AA A']) expect(fromBase64url(odd)).toBeUndefined()
})
