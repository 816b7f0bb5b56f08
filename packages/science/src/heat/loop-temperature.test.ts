import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { type LoopSegment, pipeOfSegment } from './loop-segments.ts'
import { loopTemperature } from './loop-temperature.ts'
import { pipeHeatLoss } from './pipe-heat-loss.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const segment: fc.Arbitrary<LoopSegment> = fc.record({
  lengthM: real(0, 80),
  outsideDiameterMm: real(10, 60),
  insulationMm: real(1, 40),
  insulationConductivityWPerMK: real(0.03, 0.05),
})
const loops = fc.record({
  segments: fc.array(segment, { minLength: 1, maxLength: 5 }),
  flowLPerMin: real(0.2, 30),
  startC: real(40, 80),
  ambientC: real(0, 35),
})

test('a segment cut in two ends as warm, and equal air ends equal', () => {
  fc.assert(
    fc.property(loops, (input) => {
      const halves = input.segments.flatMap((each) => [
        { ...each, lengthM: each.lengthM / 2 },
        { ...each, lengthM: each.lengthM / 2 },
      ])
      expect(loopTemperature({ ...input, segments: halves }).returnC).toBeCloseTo(loopTemperature(input).returnC, 4)
      expect(loopTemperature({ ...input, startC: input.ambientC }).dropK).toBe(0)
    }),
  )
})

test('more flow comes back warmer, and temperatures only fall on the way', () => {
  fc.assert(
    fc.property(loops, (input) => {
      const got = loopTemperature(input)
      const more = loopTemperature({ ...input, flowLPerMin: input.flowLPerMin * 1.2 })
      expect(more.returnC).toBeGreaterThanOrEqual(got.returnC)
      const path = [input.startC, ...got.segmentEndC]
      expect(path.every((each, i) => i === 0 || each <= (path[i - 1] ?? 0))).toBe(true)
      expect(got.coldestC).toBe(got.returnC)
      expect(got.dropK).toBeCloseTo(input.startC - got.returnC, 12)
    }),
  )
})

test('a known coefficient gives the exponential of length over flow', () => {
  const { returnC, heatW } = loopTemperature({
    segments: [{ lengthM: 100, lossWPerMK: 0.2 }],
    flowLPerMin: 4,
    startC: 60,
    ambientC: 20,
  })
  const perK = (4 / 60_000) * 983.2 * 4181.5
  expect(returnC).toBeCloseTo(20 + 40 * Math.exp(-20 / perK), 2)
  // Formulations of the heat capacity differ by 0.05 %.
  expect(heatW / (perK * (60 - returnC))).toBeCloseTo(1, 2)
})

test('two equal branches come together as one of both flows and half of each loss', () => {
  const side = { lengthM: 20, lossWPerMK: 0.2, after: ['up'], flowLPerMin: 2 }
  const split = loopTemperature({
    segments: [
      { name: 'up', lengthM: 10, lossWPerMK: 0.2 },
      { name: 'a', ...side },
      { name: 'b', ...side },
      { name: 'down', lengthM: 10, lossWPerMK: 0.2, after: ['a', 'b'] },
    ],
    flowLPerMin: 4,
    startC: 60,
    ambientC: 20,
  })
  const [up = 0, a = 0, b = 0, down = 0] = split.segmentEndC
  expect(a).toBe(b)
  expect(up).toBeGreaterThan(a)
  expect(down).toBeLessThan(a)
  expect(split.segments[3]?.inletC).toBeCloseTo(a, 12)
})

test('a cold riser hides behind a fair return', () => {
  const got = loopTemperature({
    segments: [
      { name: 'near', lengthM: 10, lossWPerMK: 0.2 },
      { name: 'far', lengthM: 80, lossWPerMK: 0.9, flowLPerMin: 1, after: ['near'] },
      { name: 'return', lengthM: 1, lossWPerMK: 0.2, after: ['near', 'far'] },
    ],
    flowLPerMin: 10,
    startC: 60,
    ambientC: 20,
  })
  expect(got.coldestSegment).toBe('far')
  expect(got.returnC - got.coldestC).toBeGreaterThan(20)
  const [near = 0, far = 0] = got.segmentEndC
  expect(got.segments[2]?.inletC).toBeCloseTo(0.9 * near + 0.1 * far, 12)
})

test('water that hardly moves takes the air’s temperature', () => {
  const segments = [{ lengthM: 10, outsideDiameterMm: 22 }]
  expect(loopTemperature({ segments, flowLPerMin: 1e-9, startC: 60, ambientC: 21 }).returnC).toBe(21)
})

test('no flow, no pipe, unknown and repeated names, and more out than in are refused at their fields', () => {
  const pipe = { lengthM: 5, lossWPerMK: 0.2 }
  const issues = (segments: object[], flowLPerMin = 3) =>
    runCalculation({ id: 'loop-temperature', input: { segments, flowLPerMin, startC: 60, ambientC: 20 } })
  expect(issues([pipe], 0)).toMatchObject({ issues: [{ path: 'flowLPerMin' }] })
  expect(issues([{ lengthM: 5 }])).toMatchObject({ issues: [{ path: 'segments.0.outsideDiameterMm' }] })
  expect(issues([pipe, { ...pipe, after: ['x'] }])).toMatchObject({
    issues: [{ path: 'segments.1.after', expected: 'names of earlier segments: 1', received: '"x"' }],
  })
  expect(issues([{ ...pipe, name: '2' }, pipe])).toMatchObject({ issues: [{ path: 'segments.1.name' }] })
  const thin = { ...pipe, name: 'a', flowLPerMin: 1 }
  expect(issues([thin, { ...pipe, flowLPerMin: 2, after: ['a'] }])).toMatchObject({
    issues: [{ path: 'segments.1.flowLPerMin', expected: 'at most what comes in, 1', received: '2' }],
  })
  const up = { ...pipe, name: 'up' }
  const left = { ...pipe, name: 'left', after: ['up'], flowLPerMin: 2 }
  expect(issues([up, left, { ...pipe, after: ['up'], flowLPerMin: 5 }])).toMatchObject({
    issues: [{ path: 'segments.2.flowLPerMin', expected: 'at most what comes in, 1', received: '5' }],
  })
  expect(issues([up, left, { ...pipe, after: ['left'] }])).toMatchObject({
    issues: [{ path: 'segments.2.flowLPerMin', expected: 'at most what comes in, 2', received: '3' }],
  })
  expect(issues([up, left, { ...pipe, name: 'right', after: ['up'], flowLPerMin: 1 }])).toHaveProperty('result')
  expect(() =>
    loopTemperature({ segments: [{ ...pipe, after: ['x'] }], flowLPerMin: 1, startC: 60, ambientC: 20 }),
  ).toThrow(RangeError)
})

test('a bore is a wall said otherwise, and tells how the water moves', () => {
  const run = (odd: object) =>
    loopTemperature({
      segments: [{ lengthM: 20, outsideDiameterMm: 20, material: 'pex', ...odd }],
      flowLPerMin: 1,
      startC: 60,
      ambientC: 20,
    })
  expect(run({ boreMm: 14.4 }).returnC).toBeCloseTo(run({ wallMm: 2.8 }).returnC, 12)
  expect(run({ boreMm: 14.4 }).segments[0]).toMatchObject({ regime: 'in-between' })
  expect(run({ boreMm: 14.4 }).segments[0]?.reynolds).toBeCloseTo(run({ wallMm: 2.8 }).segments[0]?.reynolds ?? 0, 9)
  expect(run({}).segments[0]).not.toHaveProperty('regime')
  expect(run({ uprightHeightM: 20 }).returnC).toBeGreaterThan(run({}).returnC)
})

test('a bore as wide as the pipe, or beside a wall, is refused at the bore', () => {
  const issues = (odd: object) =>
    runCalculation({
      id: 'loop-temperature',
      input: { segments: [{ lengthM: 5, outsideDiameterMm: 22, ...odd }], flowLPerMin: 3, startC: 60, ambientC: 20 },
    })
  expect(issues({ boreMm: 22 })).toMatchObject({ issues: [{ path: 'segments.0.boreMm', received: '22' }] })
  expect(issues({ boreMm: 20, wallMm: 1 })).toMatchObject({
    issues: [{ path: 'segments.0.boreMm', expected: 'either boreMm or wallMm, not both' }],
  })
})

test('the heat the water gives up is the heat the pipe lets out', () => {
  fc.assert(
    fc.property(loops, segment, ({ flowLPerMin, startC, ambientC }, long) => {
      const piece = { ...long, lengthM: long.lengthM / 64 }
      const segments = Array.from({ length: 64 }, () => piece)
      const got = loopTemperature({ segments, flowLPerMin, startC, ambientC })
      const lost = got.segments.reduce((sum, { inletC, endC }) => {
        const waterC = ambientC + meanDifference(inletC - ambientC, endC - ambientC)
        return sum + pipeHeatLoss({ ...pipeOfSegment(piece), waterC, ambientC }).wattsPerM * piece.lengthM
      }, 0)
      // The coefficient of each piece is that at its logarithmic mean, and 64 pieces are not infinitely many: 0.05 %.
      expect(Math.abs(got.heatW - lost)).toBeLessThan(5e-4 * Math.abs(lost) + 1e-6)
    }),
    { numRuns: 20 },
  )
})

/** Logarithmic, as a difference that falls exponentially has. */
function meanDifference(from: number, to: number): number {
  return Math.abs(from - to) <= 1e-6 * Math.abs(from) ? (from + to) / 2 : (from - to) / Math.log(from / to)
}
