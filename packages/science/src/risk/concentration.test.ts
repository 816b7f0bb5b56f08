import { expect, test } from 'vitest'
import { gammaCdf } from '../distributions/gamma.ts'
import { seededRandom } from '../random/random-source.ts'
import { type Concentration, concentrationDraws, yearsToSimulate } from './concentration.ts'

const DRAWS = 40_000
const drawn = (known: number | Concentration, perYear: number) => {
  const draws = concentrationDraws(known, { random: seededRandom(5), perYear, draws: DRAWS })
  const pairs = Array.from({ length: DRAWS }, () => {
    const one = draws.one()
    return { one, year: one + draws.others(one) }
  })
  const mean = (of: (pair: { one: number; year: number }) => number) =>
    pairs.reduce((sum, pair) => sum + of(pair), 0) / DRAWS
  const sd = (of: (pair: { one: number; year: number }) => number) =>
    Math.sqrt(mean((pair) => of(pair) ** 2) - mean(of) ** 2)
  return { pairs, mean, sd }
}

test.each<[string, Concentration, number, number]>([
  // mean and standard deviation of one shower
  [
    'lognormal',
    { kind: 'lognormal', medianCfuPerL: 200, geometricSd: Math.exp(0.5), spread: 'between-showers' },
    200 * Math.exp(0.125),
    200 * Math.exp(0.125) * Math.sqrt(Math.expm1(0.25)),
  ],
  ['gamma', { kind: 'gamma', shape: 4, rateLPerCfu: 0.02, spread: 'between-showers' }, 200, 100],
])('%s between showers: a year has n times the mean and √n times the spread', (_, known, mean, sd) => {
  const n = 25
  const got = drawn(known, n)
  // five standard errors of a mean; a spread of so skewed draws is known to a few per cent
  expect(Math.abs(got.mean(({ one }) => one) - mean)).toBeLessThan((5 * sd) / Math.sqrt(DRAWS))
  expect(Math.abs(got.mean(({ year }) => year) - n * mean)).toBeLessThan((5 * sd * Math.sqrt(n)) / Math.sqrt(DRAWS))
  expect(got.sd(({ one }) => one) / sd).toBeCloseTo(1, 1)
  expect(got.sd(({ year }) => year) / (sd * Math.sqrt(n))).toBeCloseTo(1, 1)
})

test.each<[string, number | Concentration]>([
  ['a number', 7],
  ['an unknown level', { kind: 'lognormal', medianCfuPerL: 200, geometricSd: 3, spread: 'unknown-level' }],
  ['a count', { kind: 'counts', colonies: 3, examinedMl: 50 }],
  ['a limit', { kind: 'below', below: 10 }],
])('%s keeps one level all year', (_, known) => {
  expect(drawn(known, 12).pairs.every(({ one, year }) => Math.abs(year / (12 * one) - 1) < 1e-12)).toBe(true)
})

test('one shower a year is that shower', () => {
  const known = { kind: 'gamma', shape: 0.4, rateLPerCfu: 1, spread: 'between-showers' } as const
  expect(drawn(known, 1).pairs.every(({ one, year }) => one === year)).toBe(true)
})

test('after a count the level falls as the gamma distribution of count and a half says', () => {
  const { pairs } = drawn({ kind: 'counts', colonies: 3, examinedMl: 50 }, 1)
  for (const level of [20, 60, 150]) {
    const share = pairs.filter(({ one }) => one <= level).length / DRAWS
    // five standard errors of a share at most
    expect(Math.abs(share - gammaCdf(level * 0.05, { shape: 3.5 }))).toBeLessThan(2.5 / Math.sqrt(DRAWS))
  }
})

test('years are simulated for every draw until there would be too many', () => {
  expect(yearsToSimulate(100_000, 365)).toBe(100_000)
  expect(yearsToSimulate(1e7, 10_000) * 10_000).toBeLessThan(4.1e7)
  expect(yearsToSimulate(1e7, 2)).toBe(1e6)
})
