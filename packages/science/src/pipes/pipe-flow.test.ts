import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { pipeFlow } from './pipe-flow.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

test('velocity times section is the flow; twice the bore at the same flow halves the Reynolds number', () => {
  fc.assert(
    fc.property(real(1, 200), real(0.001, 1000), real(0, 100), (boreMm, flowLPerMin, temperatureC) => {
      const got = pipeFlow({ boreMm, flowLPerMin, temperatureC })
      const section = (Math.PI / 4) * (boreMm / 1000) ** 2
      expect((got.velocityMPerS * section * 60_000) / flowLPerMin).toBeCloseTo(1, 10)
      const wide = pipeFlow({ boreMm: 2 * boreMm, flowLPerMin, temperatureC })
      expect(got.reynolds / wide.reynolds).toBeCloseTo(2, 10)
    }),
  )
})

test('standing water is laminar; a running tap is turbulent; between the limits it is called so', () => {
  const at = (flowLPerMin: number) => pipeFlow({ boreMm: 13, flowLPerMin, temperatureC: 20 }).regime
  expect([at(0), at(1), at(2), at(9)]).toEqual(['laminar', 'laminar', 'in-between', 'turbulent'])
})
