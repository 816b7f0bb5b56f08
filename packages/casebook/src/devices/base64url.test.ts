import { expect, test } from 'vitest'
import { fromBase64url, toBase64url } from './base64url.ts'

const ascii = (text: string): Uint8Array => new TextEncoder().encode(text)

// RFC 4648, section 10, without the padding; known from memory
test.each([
  ['', ''],
  ['f', 'Zg'],
  ['fo', 'Zm8'],
  ['foo', 'Zm9v'],
  ['foob', 'Zm9vYg'],
  ['fooba', 'Zm9vYmE'],
  ['foobar', 'Zm9vYmFy'],
])('"%s" is written %s and read back', (text, written) => {
  expect(toBase64url(ascii(text))).toBe(written)
  expect(fromBase64url(written)).toEqual(ascii(text))
})

test('every byte in every place is written as Node writes it, and read back', () => {
  for (let length = 0; length < 70; length += 1) {
    const bytes = Uint8Array.from({ length }, (_, index) => (index * 37 + length * 101) % 256)
    expect(toBase64url(bytes)).toBe(Buffer.from(bytes).toString('base64url'))
    expect(fromBase64url(toBase64url(bytes))).toEqual(bytes)
  }
})

test.each([
  ['padding', 'Zg=='],
  ['the other alphabet', '+/8'],
  ['stray bits', 'Zh'],
  ['one letter too many', 'Zm9vY'],
  ['a space', 'Zm 8'],
  ['a line end', 'Zm8\n'],
  ['a letter of no alphabet', 'Zm8é'],
])('%s is no base64url of these bytes', (_, text) => {
  expect(fromBase64url(text)).toBeUndefined()
})
