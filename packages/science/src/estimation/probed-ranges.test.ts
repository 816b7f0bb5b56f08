import { expect, test } from 'vitest'
import type { FitProblem } from './fit-problem.ts'
import { withProbedRanges } from './probed-ranges.ts'
import { regularisedFit } from './regularised-fit.ts'

const Z = 1.6448536269514722

const straight: FitProblem = {
  parameters: [
    { id: 'a', scale: 'linear', start: 0, prior: { centre: 0, sd: 1 } },
    { id: 'b', scale: 'linear', start: 0, prior: { centre: 1, sd: 3 } },
  ],
  readings: [
    { value: 2, sd: 1 },
    { value: 3, sd: 0.5 },
  ],
  model: ([a = 0, b = 0]) => [a, a + b],
  loss: { kind: 'squares' },
}

test('where the model is straight the ranges stay as they were', () => {
  const fit = regularisedFit(straight)
  for (const [j, { range }] of withProbedRanges(straight, fit).parameters.entries()) {
    expect(range.lower).toBeCloseTo(fit.parameters[j]?.range.lower ?? Number.NaN, 4)
    expect(range.upper).toBeCloseTo(fit.parameters[j]?.range.upper ?? Number.NaN, 4)
  }
})

test('where it bends the edges come near those at which the misfit truly rises by z², which lie apart', () => {
  // one reading of eᵃ, 5 with sd 1.5, and nearly no prior: edges at ln(5 ± 1.5 z)
  const bent: FitProblem = {
    parameters: [{ id: 'a', scale: 'linear', start: 1, prior: { centre: 1, sd: 1000 } }],
    readings: [{ value: 5, sd: 1.5 }],
    model: ([a = 0]) => [Math.exp(a)],
    loss: { kind: 'squares' },
  }
  const fit = regularisedFit(bent)
  const [before, after] = [fit, withProbedRanges(bent, fit)].map(({ parameters }) => parameters[0]?.range)
  const [lower, upper] = [Math.log(5 - 1.5 * Z), Math.log(5 + 1.5 * Z)]
  const off = (range = { lower: Number.NaN, upper: Number.NaN }): number[] => [
    Math.abs(range.lower - lower),
    Math.abs(range.upper - upper),
  ]
  const [[lowerBefore = 0, upperBefore = 0], [lowerAfter = 1, upperAfter = 1]] = [off(before), off(after)] as const
  expect(lowerAfter).toBeLessThan(lowerBefore / 2)
  expect(upperAfter).toBeLessThan(upperBefore / 2)
})

test('one of which the readings say nothing, and an edge without numbers, stay; a bound holds', () => {
  const parameters = [
    { id: 'a', scale: 'linear', start: 0.2, prior: { centre: 0.2, sd: 1 }, lower: 0 },
    { id: 'idle', scale: 'log', start: 2, prior: { centre: 2, sd: 0.7 } },
  ] as const
  let runs = 0
  const problem: FitProblem = {
    parameters,
    readings: [{ value: 0.2, sd: 1 }],
    model: ([a = 0]) => {
      runs += 1
      return [a > 1 ? Number.NaN : a]
    },
    loss: { kind: 'squares' },
  }
  const fit = regularisedFit(problem)
  runs = 0
  const [a, idle] = withProbedRanges(problem, fit).parameters
  expect(runs).toBe(2)
  expect(a?.range).toMatchObject({ lower: 0, upper: fit.parameters[0]?.range.upper })
  expect(idle?.range).toEqual(fit.parameters[1]?.range)
})
