import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { clearingTime } from './clearing-time.ts'
import { findPipeSize, pipeSizes } from './pipe-catalogue.ts'
import { pipeVolume } from './pipe-volume.ts'
import { kinematicViscosityMm2PerS } from './viscosity.ts'

const segment = fc.record({
  boreMm: fc.double({ min: 1, max: 200, noNaN: true }),
  lengthM: fc.double({ min: 0.01, max: 100, noNaN: true }),
})
const run = fc.record({
  segments: fc.array(segment, { minLength: 1, maxLength: 6 }),
  flowLPerMin: fc.double({ min: 0.1, max: 100, noNaN: true }),
  turnovers: fc.double({ min: 0.1, max: 10, noNaN: true }),
  temperatureC: fc.double({ min: 5, max: 80, noNaN: true }),
})

test('a pipe cut in two clears in the same time, and order does not matter', () => {
  fc.assert(
    fc.property(run, (input) => {
      const halves = input.segments.flatMap((each) => [
        { ...each, lengthM: each.lengthM / 2 },
        { ...each, lengthM: each.lengthM / 2 },
      ])
      const whole = clearingTime(input).seconds
      expect(clearingTime({ ...input, segments: halves }).seconds / whole).toBeCloseTo(1, 12)
      expect(clearingTime({ ...input, segments: input.segments.toReversed() }).seconds / whole).toBeCloseTo(1, 12)
    }),
  )
})

test('water moving at the mean velocity crosses the pipes in that time', () => {
  fc.assert(
    fc.property(run, (input) => {
      const { seconds, segments } = clearingTime(input)
      const crossing = segments.reduce(
        (sum, each, i) => sum + (input.segments[i]?.lengthM ?? 0) / each.velocityMPerS,
        0,
      )
      expect(seconds / input.turnovers / crossing).toBeCloseTo(1, 10)
    }),
  )
})

test('hotter water is thinner, so its Reynolds number is larger', () => {
  const at = (temperatureC: number) =>
    clearingTime({ segments: [{ boreMm: 13, lengthM: 1 }], flowLPerMin: 1, turnovers: 1, temperatureC })
  expect(at(60).reynolds[0]).toBeGreaterThan(at(10).reynolds[0] ?? Number.NaN)
  expect(at(10).segments[0]?.regime).toBe('laminar')
})

test('viscosity is that of liquid water, and there is none beyond', () => {
  expect(kinematicViscosityMm2PerS(15)).toBeGreaterThan(kinematicViscosityMm2PerS(20))
  expect(() => kinematicViscosityMm2PerS(101)).toThrow(RangeError)
})

test('sizes are found as people write them', () => {
  expect(findPipeSize({ standard: 'astm-b88-type-l', size: '1/2 in' })?.boreMm).toBeCloseTo(13.843, 12)
  expect(findPipeSize({ standard: 'astm-b88-type-l', size: '1 1/4"' })?.size).toBe('1 1/4')
  expect(findPipeSize({ standard: 'en-1057', size: '22 x 1 mm' })?.boreMm).toBe(20)
  expect(findPipeSize({ standard: 'en-1057', size: '23x1' })).toBeUndefined()
  expect(() => pipeVolume({ standard: 'en-1057', size: '23x1', lengthM: 1 })).toThrow(RangeError)
})

test('every size is a tube', () => {
  expect(pipeSizes.length).toBeGreaterThan(40)
  expect(pipeSizes.filter(({ boreMm, outsideDiameterMm }) => !(0 < boreMm && boreMm < outsideDiameterMm))).toEqual([])
})

test('in laminar flow a quarter of old water leaves after one turnover, a hundredth after five, all until half of one', () => {
  const after = (turnovers: number, flowLPerMin = 1) =>
    clearingTime({ segments: [{ boreMm: 13, lengthM: 5 }], flowLPerMin, turnovers, temperatureC: 20 }).segments[0]
  expect([0.4, 0.5, 1, 5].map((turnovers) => after(turnovers)?.laminarOldShare)).toEqual([1, 1, 0.25, 0.01])
  expect(after(1, 9)).not.toHaveProperty('laminarOldShare')
})

test('a segment is passed by the water of all: the shorter it is, the less of its old water is left', () => {
  const input = { flowLPerMin: 0.5, turnovers: 1, temperatureC: 20 }
  const got = clearingTime({ ...input, segments: [1, 3, 0].map((lengthM) => ({ boreMm: 13, lengthM })) })
  expect(got.segments.map((each) => each.laminarOldShare)).toEqual([1 / 64, 1 / (4 * (4 / 3) ** 2), 0])
})
