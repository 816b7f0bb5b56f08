import { expect, test } from 'vitest'
import { calibrate } from './calibrate.ts'
import { coarse, measured, normals, threeTaps, truthOf, usualRound } from './small-buildings.fixture.ts'

const CASES = 32

test('[CLB5] in simulated buildings the 90 % ranges hold the truth in about 90 of 100, and nothing is found wrong where nothing is', () => {
  const readings = usualRound(threeTaps)
  let [held, asked, found, unexplained] = [0, 0, 0, 0]
  for (let seed = 1; seed <= CASES; seed++) {
    const normal = normals(seed)
    const truth = truthOf(threeTaps, { readings, normal })
    const fitted = calibrate(threeTaps, {
      readings: measured(threeTaps, { truly: { overrides: truth.overrides }, readings, normal }),
      run: coarse,
    })
    if (fitted.kind === 'not fitted') throw new Error(fitted.why)
    found += fitted.findings.length
    unexplained += fitted.unexplained.length
    for (const [j, { id }] of truth.inputs.entries()) {
      const range = fitted.inputs.find((one) => one.id === id)?.after.range
      const value = truth.values[j] ?? Number.NaN
      asked += 1
      if (range !== undefined && value >= range.lower && value <= range.upper) held += 1
    }
  }
  // three standard deviations of a binomial share of 90 % either side
  const allowed = 3 * Math.sqrt((0.9 * 0.1) / asked)
  expect(held / asked).toBeGreaterThan(0.9 - allowed)
  expect(held / asked).toBeLessThan(0.9 + allowed)
  expect(found).toBe(0)
  // 18 readings a case, one in 2,000 beyond the limit by chance
  expect(unexplained).toBeLessThanOrEqual(3)
}, 300_000)
