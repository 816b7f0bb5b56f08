import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { FilmTable } from './film-table.ts'

const LAWS = { lossPower: Float64Array.of(0, 0.1, 0.25, 0.3, 0.1), lossAtK: Float64Array.of(38, 38, 20, 60, 20) }
const table = new FilmTable(LAWS)

test('the power of the difference to 3 parts in 10,000, from 1/16 K to 200 K', () => {
  const anywhere = fc.tuple(fc.nat({ max: 4 }), fc.double({ min: 1 / 16, max: 200, noNaN: true }))
  fc.assert(
    fc.property(anywhere, ([pipe, apartK]) => {
      const want = (apartK / (LAWS.lossAtK[pipe] ?? 0)) ** (LAWS.lossPower[pipe] ?? 0)
      expect(Math.abs(table.at(table.lawOf(pipe), apartK) / want - 1)).toBeLessThan(3e-4)
    }),
  )
})

test('below 1/16 K as there, far above as at the end of the table', () => {
  expect(table.at(table.lawOf(1), 0)).toBe(table.at(table.lawOf(1), 1 / 16))
  expect(table.at(table.lawOf(1), 1e6)).toBe(table.at(table.lawOf(1), 1e5))
})
