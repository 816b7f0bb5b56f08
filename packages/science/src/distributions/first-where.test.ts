import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { firstWhere } from './first-where.ts'

test('it is what a look at every number finds', () => {
  const whole = fc.integer({ min: -40, max: 40 })
  fc.assert(
    fc.property(whole, fc.nat({ max: 60 }), whole, (least, width, edge) => {
      const most = least + width
      const all = Array.from({ length: width }, (_, at) => least + at)
      expect(firstWhere({ least, most }, (k) => k >= edge)).toBe(all.find((k) => k >= edge) ?? most)
    }),
  )
})
