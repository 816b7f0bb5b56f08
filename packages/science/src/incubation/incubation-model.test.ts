import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { type IncubationModel, incubationDistribution } from './incubation-model.ts'
import { logChance } from './log-chance.ts'

const MODELS: IncubationModel[] = [
  { family: 'published', id: 'gamma-a' },
  { family: 'gamma', shape: 0.7, scaleDays: 4 },
  { family: 'lognormal', medianDays: 6, sdLog: 0.4 },
  { family: 'weibull', shape: 2.3, scaleDays: 7 },
  { family: 'burr', shape: 3, tailShape: 1.5, scaleDays: 7 },
  { family: 'by-day', cases: [0, 2, 5, 3, 1] },
]

test.each(MODELS)('$family: both tails add up, and stretches add up to their whole', (model) => {
  const one = incubationDistribution(model)
  const day = fc.double({ min: 0.01, max: 40, noNaN: true })
  fc.assert(
    fc.property(day, day, day, (...days) => {
      const [a, b, c] = days.sort((x, y) => x - y)
      expect(Math.exp(one.logLower(a)) + Math.exp(one.logUpper(a))).toBeCloseTo(1, 12)
      const chance = (from: number, to: number) => (to > from ? Math.exp(logChance(one, { from, to })) : 0)
      expect(chance(a, b) + chance(b, c)).toBeCloseTo(chance(a, c), 12)
    }),
  )
})

test.each(MODELS.slice(0, 5))('$family: a stretch so narrow or far that doubles fail still has a chance', (model) => {
  const one = incubationDistribution(model)
  for (const from of [3, 60]) {
    const to = from + 1e-9
    const wanted = one.logDensity(from) + Math.log(to - from)
    expect(Math.abs(logChance(one, { from, to }) - wanted)).toBeLessThan(1e-6)
  }
  expect(Number.isFinite(logChance(one, { from: 3000, to: 3001 }))).toBe(true)
  expect(logChance(one, { from: 3000, to: 3001 })).toBeLessThan(-5)
})

test('an unknown model, or no case at all, is refused', () => {
  expect(() => incubationDistribution({ family: 'published', id: 'burr' })).toThrow(RangeError)
  expect(() => incubationDistribution({ family: 'by-day', cases: [0, 0] })).toThrow(RangeError)
})
