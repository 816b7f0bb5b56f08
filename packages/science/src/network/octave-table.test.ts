import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { OctaveTable } from './octave-table.ts'

test('a power is kept to a part in 100,000 within its doublings, and to the last digit outside', () => {
  const law = (x: number) => x ** (2 / 3)
  const table = new OctaveTable(law, { least: 0.25, octaves: 22 })
  fc.assert(
    fc.property(fc.double({ min: 0.25, max: 1e6, noNaN: true }), (x) => {
      expect(Math.abs(table.at(x) / law(x) - 1)).toBeLessThan(1e-5)
    }),
  )
  for (const x of [0, 1e-9, 0.2499, 2 ** 20, 1e15]) expect(table.at(x)).toBe(law(x))
})
