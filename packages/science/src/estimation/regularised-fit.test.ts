import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { FitParameter, FitProblem } from './fit-problem.ts'
import { regularisedFit } from './regularised-fit.ts'

const known = (id: string, centre: number, sd: number): FitParameter => ({
  id,
  scale: 'linear',
  start: centre,
  prior: { centre, sd },
})

/** A cooling curve of two unknowns, read at ten moments. */
const HOURS = [0.1, 0.2, 0.4, 0.7, 1, 1.5, 2, 3, 4, 6]
const cooling = ([airC = 0, perHour = 0]: readonly number[]): number[] =>
  HOURS.map((hours) => airC + (60 - airC) * Math.exp(-perHour * hours))
const COOLING: Pick<FitProblem, 'parameters' | 'model' | 'loss'> = {
  parameters: [known('air', 22, 4), { id: 'rate', scale: 'log', start: 0.5, prior: { centre: 0.5, sd: 0.5 } }],
  model: cooling,
  loss: { kind: 'squares' },
}
const readingsOf = (values: readonly number[], sd = 0.3) => values.map((value) => ({ value, sd }))

test('a straight model with normal priors gives the mean and variance of the conjugate formula, whatever the figures', () => {
  const figure = fc.double({ min: -20, max: 20, noNaN: true })
  const size = fc.double({ min: 0.2, max: 5, noNaN: true })
  fc.assert(
    fc.property(figure, size, fc.array(figure, { minLength: 1, maxLength: 8 }), size, (centre, sd, values, readSd) => {
      const fit = regularisedFit({
        parameters: [known('a', centre, sd)],
        readings: readingsOf(values, readSd),
        model: ([a = 0]) => values.map(() => a),
        loss: { kind: 'squares' },
      })
      const precision = 1 / sd ** 2 + values.length / readSd ** 2
      const mean = (centre / sd ** 2 + values.reduce((sum, each) => sum + each, 0) / readSd ** 2) / precision
      expect(fit.parameters[0]?.value).toBeCloseTo(mean, 4)
      expect(fit.parameters[0]?.sd).toBeCloseTo(1 / Math.sqrt(precision), 5)
      expect(fit.parameters[0]?.sdRatio).toBeCloseTo(1 / Math.sqrt(precision) / sd, 5)
    }),
  )
})

test('what no reading depends on keeps its prior and says so', () => {
  const fit = regularisedFit({
    ...COOLING,
    parameters: [...COOLING.parameters, { id: 'idle', scale: 'log', start: 2, prior: { centre: 2, sd: 0.7 } }],
    readings: readingsOf(cooling([25, 0.8])),
  })
  const idle = fit.parameters[2]
  expect(idle?.value).toBeCloseTo(2, 12)
  expect(idle?.sdRatio).toBe(1)
  expect(Math.log((idle?.range.upper ?? 0) / 2)).toBeCloseTo(0.7 * 1.6448536, 6)
  expect(fit.parameters[0]?.sdRatio).toBeLessThan(0.2)
})

test('90 % ranges hold the truth in about 90 % of simulated cases whose truth comes from the prior', () => {
  const normal = normals(20_261)
  let held = 0
  const cases = 300
  for (let i = 0; i < cases; i++) {
    const truth = [22 + 4 * normal(), 0.5 * Math.exp(0.5 * normal())]
    const readings = readingsOf(cooling(truth).map((each) => each + 0.3 * normal()))
    const fit = regularisedFit({ ...COOLING, readings })
    for (const [j, { range }] of fit.parameters.entries())
      if ((truth[j] ?? 0) >= range.lower && (truth[j] ?? 0) <= range.upper) held += 1
  }
  // binomial, two unknowns a case: three standard deviations either side of 90 %
  const share = held / (2 * cases)
  expect(share).toBeGreaterThan(0.9 - 3 * Math.sqrt((0.9 * 0.1) / (2 * cases)))
  expect(share).toBeLessThan(0.9 + 3 * Math.sqrt((0.9 * 0.1) / (2 * cases)))
})

test('one impossible reading bends squares, but hardly a Student loss', () => {
  const values = cooling([25, 0.8])
  values[4] = 12
  const readings = readingsOf(values)
  const off = (kind: FitProblem['loss']): number =>
    Math.abs((regularisedFit({ ...COOLING, loss: kind, readings }).parameters[1]?.value ?? 0) - 0.8)
  expect(off({ kind: 'squares' })).toBeGreaterThan(0.1)
  expect(off({ kind: 'huber', limit: 1.345 })).toBeLessThan(0.02)
  expect(off({ kind: 'student', freedom: 4 })).toBeLessThan(0.005)
  const fit = regularisedFit({ ...COOLING, loss: { kind: 'student', freedom: 4 }, readings })
  expect(fit.standardised[4]).toBeLessThan(-50)
  expect(fit.weights[4]).toBeLessThan(0.01)
})

test('a limit counts only where it is broken', () => {
  const at = (value: number, beyond: 'below' | 'above') =>
    regularisedFit({
      parameters: [known('a', 3, 1)],
      readings: [{ value, sd: 1, beyond }],
      model: ([a = 0]) => [a],
      loss: { kind: 'squares' },
    }).parameters[0]
  expect(at(5, 'below')).toMatchObject({ value: 3, sdRatio: 1 })
  expect(at(1, 'below')?.value).toBeCloseTo(2, 6)
  expect(at(1, 'above')).toMatchObject({ value: 3, sdRatio: 1 })
})

test('what is predicted beside a limit that is kept is as uncertain as the parameters leave it', () => {
  const fit = regularisedFit({
    parameters: [known('a', 3, 1)],
    readings: [
      { value: 9, sd: 0.5, beyond: 'below' },
      { value: 3, sd: 1 },
    ],
    model: ([a = 0]) => [2 * a, a],
    loss: { kind: 'squares' },
  })
  // prior and one reading of equal sd: half the variance is left, and the first prediction moves twice as far
  expect(fit.parameters[0]?.sd).toBeCloseTo(Math.SQRT1_2, 6)
  expect(fit.predictedSd[0]).toBeCloseTo(2 * Math.SQRT1_2, 6)
  expect(fit.predictedSd[1]).toBeCloseTo(Math.SQRT1_2, 6)
  expect(fit.slopes[0]).toBeCloseTo(2, 6)
})

test('values stay within their bounds, and one at its bound says so', () => {
  const fit = regularisedFit({
    parameters: [{ ...known('a', 1, 5), lower: 0 }],
    readings: [{ value: -4, sd: 0.1 }],
    model: ([a = 0]) => [a],
    loss: { kind: 'squares' },
  })
  expect(fit.parameters[0]).toMatchObject({ value: 0, atBound: true, range: { lower: 0 } })
})

test('few runs are taken, their number is told, and throwing from there stops the work', () => {
  const readings = readingsOf(cooling([25, 0.8]))
  const runs: number[] = []
  const fit = regularisedFit({ ...COOLING, readings, tolerance: 1e-4, onRun: (run) => void runs.push(run) })
  expect(runs).toHaveLength(fit.runs)
  expect(fit.settled).toBe(true)
  expect(fit.runs).toBeLessThan(20)
  const stop = (): never => {
    throw new Error('stopped')
  }
  expect(() => regularisedFit({ ...COOLING, readings, onRun: stop })).toThrow('stopped')
  expect(regularisedFit({ ...COOLING, readings, mostRuns: 4 }).settled).toBe(false)
})

test('a model without numbers at the start, and figures that can’t be, are refused', () => {
  const readings = readingsOf(cooling([25, 0.8]))
  expect(() => regularisedFit({ ...COOLING, readings, model: () => HOURS.map(() => Number.NaN) })).toThrow(RangeError)
  expect(() => regularisedFit({ ...COOLING, readings, model: () => [1] })).toThrow(RangeError)
  const flat: FitParameter = { id: 'x', scale: 'linear', start: 1 }
  expect(() => regularisedFit({ ...COOLING, parameters: [flat], readings, model: () => HOURS })).toThrow(RangeError)
  const bad: FitParameter = { id: 'x', scale: 'log', start: -1 }
  expect(() => regularisedFit({ ...COOLING, parameters: [bad], readings })).toThrow(RangeError)
})

test('where the model fails beside a point the slope is taken from the other side', () => {
  const fit = regularisedFit({
    parameters: [known('a', 2, 1)],
    readings: [{ value: 0, sd: 0.01 }],
    model: ([a = 0]) => [a > 2 ? Number.NaN : a],
    loss: { kind: 'squares' },
  })
  expect(fit.parameters[0]?.value).toBeCloseTo(0, 2)
})

/** Standard normal numbers from a fixed seed (Box and Muller on a 32-bit generator). */
function normals(seed: number): () => number {
  let state = seed >>> 0
  const uniform = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return (state + 0.5) / 2 ** 32
  }
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
}

test('slopes of an earlier fit spare runs and lead to the same place', () => {
  const readings = readingsOf(cooling([25, 0.8]).map((each, i) => each + (i % 2 === 0 ? 0.2 : -0.2)))
  const rough = regularisedFit({ ...COOLING, readings, rough: true, tolerance: 1e-3 })
  const parameters = COOLING.parameters.map((one, j) => ({ ...one, start: rough.parameters[j]?.value ?? 0 }))
  const afresh = regularisedFit({ ...COOLING, parameters, readings })
  const spared = regularisedFit({ ...COOLING, parameters, readings, slopes: rough.slopes })
  for (const [j, { value, sd }] of afresh.parameters.entries()) {
    expect(spared.parameters[j]?.value).toBeCloseTo(value, 5)
    expect(spared.parameters[j]?.sd).toBeCloseTo(sd, 4)
  }
  expect(rough.runs).toBeLessThan(afresh.runs)
  const lastByAir = afresh.slopes[2 * (HOURS.length - 1)]
  expect(lastByAir).toBeCloseTo(1 - Math.exp(-6 * (afresh.parameters[1]?.value ?? 0)), 4)
})
