import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { linesOf } from './lines.ts'

async function* pieces(bytes: Uint8Array, sizes: number[]) {
  for (let at = 0, n = 0; at < bytes.length; n++) {
    const size = sizes[n % sizes.length] ?? 1
    yield bytes.subarray(at, at + size)
    at += size
  }
}

async function allOf(lines: AsyncIterable<string>): Promise<string[]> {
  const all: string[] = []
  for await (const line of lines) all.push(line)
  return all
}

test('lines are the same wherever the pieces are cut, through letters of several bytes as well', async () => {
  const line = fc.string({ unit: 'grapheme', maxLength: 20 }).map((text) => text.replaceAll(/[\r\n\uFEFF]/g, ''))
  const cuts = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 5 })
  await fc.assert(
    fc.asyncProperty(fc.array(line), cuts, fc.constantFrom('\n', '\r\n'), async (lines, sizes, end) => {
      const bytes = new TextEncoder().encode(lines.map((each) => `${each}${end}`).join(''))
      expect(await allOf(linesOf(pieces(bytes, sizes)))).toEqual(lines)
    }),
  )
})

test('a last line without an end counts', async () => {
  const bytes = new TextEncoder().encode('one\ntwo')
  expect(await allOf(linesOf(pieces(bytes, [3])))).toEqual(['one', 'two'])
})

test('no piece is read before the lines of the one before are used', async () => {
  let given = 0
  async function* source() {
    for (; given < 5; ) {
      given += 1
      yield new TextEncoder().encode('a\nb\n')
    }
  }
  const lines = linesOf(source())
  await lines.next()
  await lines.next()
  expect(given).toBe(1)
  await lines.next()
  expect(given).toBe(2)
})
