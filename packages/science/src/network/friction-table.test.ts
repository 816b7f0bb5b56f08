import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { kinematicViscosityMm2PerS } from '../pipes/viscosity.ts'
import { frictionFactor } from './friction.ts'
import { FrictionTable } from './friction-table.ts'

const bores = fc.record({
  boreMm: fc.double({ min: 4, max: 300, noNaN: true }),
  roughnessMm: fc.double({ min: 0, max: 1.5, noNaN: true }),
  temperatureC: fc.double({ min: 0, max: 100, noNaN: true }),
})

function asked(bore: Parameters<FrictionTable['add']>[0], flow: number) {
  const table = new FrictionTable()
  table.at(table.add(bore), flow)
  const { perM, perMSlope, fitting, fittingSlope } = table
  return { perM, perMSlope, fitting, fittingSlope }
}

test('the head is that of the formula, from smooth flow to far beyond the table', () => {
  fc.assert(
    fc.property(bores, fc.double({ min: -3, max: 7, noNaN: true }), (bore, power) => {
      const boreM = bore.boreMm / 1000
      const reynolds = 10 ** power
      const velocity = (reynolds * kinematicViscosityMm2PerS(bore.temperatureC) * 1e-6) / boreM
      const flow = velocity * (Math.PI / 4) * boreM * boreM * 60_000
      const factor = frictionFactor({ reynolds, relativeRoughness: bore.roughnessMm / bore.boreMm })
      const want = ((factor / boreM) * velocity * velocity) / (2 * 9.80665)
      const got = asked(bore, flow)
      expect(got.perM / want).toBeCloseTo(1, 6)
      expect(got.fitting / ((velocity * velocity) / (2 * 9.80665))).toBeCloseTo(1, 9)
      expect(asked(bore, -flow).perM).toBe(-got.perM)
    }),
  )
})

test('the slopes are those of the heads', () => {
  fc.assert(
    fc.property(bores, fc.double({ min: 0.001, max: 500, noNaN: true }), (bore, flow) => {
      const step = flow * 1e-5
      const [below, here, above] = [asked(bore, flow - step), asked(bore, flow), asked(bore, flow + step)]
      // within a step of a joint the curve bends, so that the middle of both sides is 1e-3 near at most
      expect((above.perM - below.perM) / (2 * step) / here.perMSlope).toBeCloseTo(1, 3)
      expect((above.fitting - below.fitting) / (2 * step) / here.fittingSlope).toBeCloseTo(1, 6)
    }),
  )
})

test('the head only rises with the flow', () => {
  fc.assert(
    fc.property(bores, fc.double({ min: 0, max: 500, noNaN: true }), (bore, flow) => {
      const { perMSlope } = asked(bore, flow)
      expect(perMSlope).toBeGreaterThan(0)
    }),
  )
})
