import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { isLongRun, runCalculation } from '../catalogue/catalogue.ts'
import { showerRisk, type ShowerRiskInput } from './shower-risk.ts'
import type { Spread } from './spread-tally.ts'

const shower: ShowerRiskInput = {
  cfuPerL: 1000,
  minutes: 8,
  perYear: 300,
  showerHead: 'conventional',
  age: '50-61',
  draws: 2000,
  seed: 1,
}
const { cfuPerL: _, ...without } = shower
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
/** Quantiles stand in cells of 0.05 %. */
const near = (a: number, b: number) => expect(Math.abs(a / b - 1)).toBeLessThan(1e-3)
const shares = ({ p5, median, p95 }: Spread) => [p5, median, p95]

test('no Legionella and no time are no risk', () => {
  const none = { median: 0, p5: 0, p95: 0, mean: 0, medianStandardError: 0 }
  for (const nothing of [{ cfuPerL: 0 }, { minutes: 0 }]) {
    const { dose, infectionRisk, clinicalSeverityRisk } = showerRisk({ ...shower, ...nothing })
    expect([dose, infectionRisk, clinicalSeverityRisk]).toEqual([
      none,
      { perEvent: none, perYear: none },
      { perEvent: none, perYear: none },
    ])
  }
})

test('endless Legionella is certain infection, and no risk is ever above 1', () => {
  const { infectionRisk } = showerRisk({ ...shower, cfuPerL: 1e12, minutes: 1440, perYear: 10_000 })
  expect(infectionRisk.perEvent.p5).toBe(1)
  expect(infectionRisk.perYear).toEqual({ median: 1, p5: 1, p95: 1, mean: 1, medianStandardError: 0 })
})

test('the same seed gives the same answer, another one another within its error', () => {
  expect(showerRisk(shower)).toEqual(showerRisk(shower))
  const [a, b] = [showerRisk(shower).dose, showerRisk({ ...shower, seed: 2 }).dose]
  expect(a.median).not.toBe(b.median)
  // five standard errors of a difference
  expect(Math.abs(a.median - b.median)).toBeLessThan(5 * Math.hypot(a.medianStandardError, b.medianStandardError))
})

test('dose goes by litres times minutes times concentration, and small risks go by the dose', () => {
  fc.assert(
    fc.property(real(1e-6, 10), real(0.1, 50), fc.nat(), (cfuPerL, times, seed) => {
      const base = { ...shower, draws: 500, cfuPerL, perYear: 1, seed }
      const once = showerRisk(base)
      for (const more of [
        { ...base, cfuPerL: cfuPerL * times },
        { ...base, minutes: 8 * times },
      ]) {
        const got = showerRisk(more)
        near(got.dose.mean, once.dose.mean * times)
        near(got.dose.p95, once.dose.p95 * times)
        near(got.infectionRisk.perEvent.median, once.infectionRisk.perEvent.median * times)
      }
    }),
    { numRuns: 25 },
  )
})

test.each([1, 2, 300])('a year of %d showers at one level is 1 − (1 − p) to that number', (perYear) => {
  const { infectionRisk, clinicalSeverityRisk } = showerRisk({ ...shower, perYear })
  const ratios = [infectionRisk, clinicalSeverityRisk].flatMap(({ perEvent, perYear: year }) =>
    shares(year).map((got, at) => got / (1 - (1 - (shares(perEvent)[at] ?? 0)) ** perYear)),
  )
  expect(Math.max(...ratios.map((ratio) => Math.abs(ratio - 1)))).toBeLessThan(1e-3)
})

test('a spread from shower to shower evens out over a year; a level that is not known does not', () => {
  const of = (spread: 'between-showers' | 'unknown-level') =>
    showerRisk({
      ...without,
      cfuPerL: undefined,
      draws: 20_000,
      perYear: 100,
      distribution: { kind: 'gamma', shape: 0.5, rateLPerCfu: 0.05, spread },
    }).clinicalSeverityRisk
  const [between, level] = [of('between-showers'), of('unknown-level')]
  expect(between.perYear.p95 / between.perYear.p5).toBeLessThan(6)
  expect(level.perYear.p95 / level.perYear.p5).toBeGreaterThan(100)
  // at so small a risk the mean of a year is the same either way
  expect(Math.abs(between.perYear.mean / level.perYear.mean - 1)).toBeLessThan(0.05)
})

test('the error told of a median is the error medians have, and falls as one over the root of the draws', () => {
  const told = (draws: number) => {
    const runs = Array.from(
      { length: 40 },
      (_each, seed) => showerRisk({ ...shower, draws, seed }).infectionRisk.perEvent,
    )
    const mean = runs.reduce((sum, { median }) => sum + median, 0) / runs.length
    const sd = Math.sqrt(runs.reduce((sum, { median }) => sum + (median - mean) ** 2, 0) / (runs.length - 1))
    const error = runs.reduce((sum, { medianStandardError }) => sum + medianStandardError, 0) / runs.length
    return { sd, error }
  }
  const [few, many] = [told(300), told(4800)]
  // the standard deviation of 40 medians is itself known to 11 %
  for (const { sd, error } of [few, many]) expect(Math.abs(sd / error - 1)).toBeLessThan(0.3)
  expect(Math.abs(few.error / many.error / 4 - 1)).toBeLessThan(0.15)
})

test('what does not vary is left out of what drives the spread; the strongest comes first', () => {
  const names = (input: ShowerRiskInput) => showerRisk(input).sensitivity.map((each) => each.input)
  expect(names(shower)).toEqual(['dose-response', 'airborne-water', 'breathing-rate', 'deposition'])
  const wide = { kind: 'lognormal', medianCfuPerL: 100, geometricSd: 10, spread: 'unknown-level' } as const
  expect(names({ ...without, cfuPerL: undefined, distribution: wide })[0]).toBe('concentration')
})

test('progress rises from 0 to 1 through both parts of a long run, and what it throws ends the run', () => {
  const distribution = { kind: 'lognormal', medianCfuPerL: 100, geometricSd: 3, spread: 'between-showers' } as const
  const told: number[] = []
  showerRisk({ ...without, distribution, draws: 20_000 }, { progress: (fraction) => told.push(fraction) })
  expect(told.length).toBeGreaterThan(50)
  expect(told).toEqual(told.toSorted((a, b) => a - b))
  expect([told[0], (told.at(-1) ?? 0) < 1]).toEqual([0, true])
  const stop = () => {
    throw new RangeError('stopped')
  }
  expect(() => showerRisk(shower, { progress: stop })).toThrow('stopped')
})

test('a number or a distribution: one of them, with the field to change', () => {
  const refused = (input: object) => runCalculation({ id: 'shower-risk', input })
  const { draws: __, seed: ___, ...given } = without
  const distribution = { kind: 'below', below: 10 }
  expect(refused(given)).toMatchObject({ issues: [{ path: 'cfuPerL', received: 'nothing' }] })
  expect(refused({ ...given, cfuPerL: 1, distribution })).toMatchObject({ issues: [{ path: 'distribution' }] })
  expect(refused({ ...given, distribution })).toHaveProperty('result')
  expect(refused({ ...given, cfuPerL: 1, draws: 1e8 })).toMatchObject({ issues: [{ path: 'draws' }] })
  expect(() => showerRisk({ ...without, cfuPerL: undefined })).toThrow(RangeError)
})

test('ten million draws are a long run, the preset is not', () => {
  const long = (draws: number) => isLongRun({ id: 'shower-risk', input: { ...shower, draws } })
  expect([long(1e7), long(50_000)]).toEqual([true, false])
})

test('a concentration at which most draws infect in one shower is told of first', () => {
  const first = (cfuPerL: number) => {
    const answer = runCalculation({ id: 'shower-risk', input: { cfuPerL, minutes: 8, perYear: 300, draws: 1000 } })
    return 'cautions' in answer ? answer.cautions[0] : ''
  }
  expect(first(1000)).not.toContain('In most draws')
  expect(first(1e7)).toMatch(/^In most draws a single shower infects/)
})
