// Incubation models: percentiles and shares by base R (pgamma, qgamma). Known by: computed; the parameters are seen in
// the public code of an incubation-period study. Printed to eleven decimals.
// LeTriWa, Lehfeld et al., Epidemiol Infect 2023: 89 % by day 10, median 5, mode 6. Known by: seen.
import { incubation, incubationCdf } from '@rillmark/science/incubation/incubation.ts'
import { expect, test } from 'vitest'

test.each([
  // model, share by day 2, 5, 6, 10, 14
  ['gamma-a', [0.02351054819, 0.36604144003, 0.51731112582, 0.89603088877, 0.98572503746]],
  ['gamma-b', [0.01012599649, 0.24613725068, 0.38027377502, 0.81470131208, 0.96488889388]],
  ['gamma-c', [0.01462163659, 0.2886734099, 0.42954501317, 0.84540830942, 0.97312710304]],
] as const)('%s, shares by day', (model, shares) => {
  const cumulative = incubationCdf(model)
  for (const [i, days] of [2, 5, 6, 10, 14].entries()) expect(cumulative(days)).toBeCloseTo(shares[i] ?? Number.NaN, 10)
})

test.each([
  ['gamma-a', 5.88130075],
  ['gamma-b', 6.88924907],
  ['gamma-c', 6.51074508],
])('%s, median', (model, median) => {
  // The median is printed to eight decimals.
  expect(incubationCdf(model)(median)).toBeCloseTo(0.5, 8)
})

const DAILY_GAMMA_A = [
  6.321426752e-5, 7.673413292e-3, 4.434611089e-2, 9.811457066e-2, 1.391835938e-1, 1.535475468e-1, 1.44211704e-1,
  1.211344026e-1, 9.374565767e-2, 6.814312234e-2, 4.714254974e-2, 3.133435812e-2, 2.014991689e-2, 1.260292796e-2,
  7.698474502e-3, 4.60777899e-3, 2.709418819e-3, 1.568533296e-3, 8.956109356e-4, 5.05128856e-4, 2.817676968e-4,
]

test('gamma-a, each day from the middle of the day before to the middle of the day after', () => {
  const { density } = incubation({ onsetDate: '2026-03-15', definition: '2-10', model: 'gamma-a' })
  expect(density).toHaveLength(DAILY_GAMMA_A.length)
  for (const [day, wanted] of DAILY_GAMMA_A.entries()) expect(density[day]?.density).toBeCloseTo(wanted, 10)
})

test('gamma-a is near what Berlin saw: 89 % by day 10', () => {
  // Another outbreak, other people: within two percentage points.
  expect(Math.abs(incubationCdf('gamma-a')(10) - 0.89)).toBeLessThan(0.02)
})
