import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { plateNusselt, uprightNusselt } from './upright-nusselt.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

test('a thin upright cylinder gives off more than a plate, the thinner the more; a wide one is a plate', () => {
  fc.assert(
    fc.property(real(3, 12), real(0.5, 10), real(0.1, 500), (digits, prandtl, slenderness) => {
      const flow = { rayleigh: 10 ** digits, prandtl }
      const got = uprightNusselt({ ...flow, slenderness })
      expect(got).toBeGreaterThan(plateNusselt(flow))
      expect(uprightNusselt({ ...flow, slenderness: slenderness * 2 })).toBeGreaterThan(got)
      expect(uprightNusselt({ ...flow, slenderness: 1e-9 }) / plateNusselt(flow)).toBeCloseTo(1, 6)
    }),
  )
})

test('more buoyancy carries more from a plate', () => {
  fc.assert(
    fc.property(real(-3, 12), real(0.5, 10), (digits, prandtl) => {
      const at = (rayleigh: number) => plateNusselt({ rayleigh, prandtl })
      expect(at(1.1 * 10 ** digits)).toBeGreaterThan(at(10 ** digits))
    }),
  )
})
