import { expect, test } from 'vitest'
import { qrLines } from './qr-lines.ts'

const TEXT = 'https://192.0.2.7:8710/join#k7Q2m9xTzR4v.B1nL8sWcB1nL8sWcB1nL8sWcB1nL8sWcB1nL8sWc_-x'

/** The dark modules, read back from the blocks. */
function modules(lines: readonly string[]): boolean[][] {
  return lines.flatMap((line) => [
    [...line].map((block) => block === '▀' || block === '█'),
    [...line].map((block) => block === '▄' || block === '█'),
  ])
}

// ISO/IEC 18004 (known from memory): four modules of quiet; finder patterns of 7 by 7 in three corners; a timing pattern that alternates
// in the seventh row and column; a size of 17 + 4 times the version.
test('a code for the terminal has quiet around it, three finder patterns, and timing patterns between them', () => {
  const rows = modules(qrLines(TEXT))
  const size = (rows[0]?.length ?? 0) - 8
  expect((size - 17) % 4).toBe(0)
  const at = (row: number, column: number): boolean => rows[row + 4]?.[column + 4] ?? false
  for (const line of [...rows.slice(0, 4), ...rows.slice(size + 4)]) expect(line).not.toContain(true)
  for (const [top, left] of [
    [0, 0],
    [0, size - 7],
    [size - 7, 0],
  ] as const)
    for (let n = 0; n < 49; n += 1) {
      const [row, column] = [Math.floor(n / 7), n % 7]
      const ring = Math.max(Math.abs(row - 3), Math.abs(column - 3))
      expect(at(top + row, left + column)).toBe(ring !== 2)
    }
  for (let n = 8; n < size - 8; n += 1) expect([at(6, n), at(n, 6)]).toEqual([n % 2 === 0, n % 2 === 0])
})

test('another text is another code, the same text the same', () => {
  expect(qrLines(TEXT)).toEqual(qrLines(TEXT))
  expect(qrLines(`${TEXT}y`)).not.toEqual(qrLines(TEXT))
})
