// Killing Legionella by heat and by chlorine: every published figure must lie within the range shown.
// Heat: Sanden et al. 1989 (seen); WHO 2007 as quoted (seen); pooled z and D60 with its worked example, handbook p. 222
// (seen); Stout 1986 as cited there (seen); Dennis 1984 (memory). Chlorine: Kuchta 1983, Water Research 19 (1985) 839 as
// summarised by its author (both seen). Monochloramine: Cunliffe 1990 (seen).
import { disinfectantContact } from '@rillmark/science/inactivation/disinfectant-contact.ts'
import { heatInactivation } from '@rillmark/science/inactivation/heat-inactivation.ts'
import { expect, test } from 'vitest'

test.each([
  // source, °C, minutes for one log10
  ['Sanden', 45, 2500],
  ['Sanden', 50, 380],
  ['Sanden', 55, 13.93],
  ['Sanden', 60, 0.74],
  ['Sanden', 66, 0.45],
  ['WHO', 50, 80],
  ['WHO', 50, 124],
  ['WHO', 60, 2],
  ['Dennis', 50, 111],
  ['Dennis', 54, 27],
  ['Dennis', 58, 6],
  ['Stout', 60, 25 / 8],
  ['Stout', 70, 10 / 8],
  ['Stout', 80, 5 / 8],
  ['pooled', 65, 0.227],
  ['pooled', 70, 0.026],
])('%s: %d °C, %d min', (_, temperatureC, published) => {
  const { lower, upper } = heatInactivation({ temperatureC, minutes: 1 }).decimalReductionMinutes
  // 2 % for the two or three figures printed.
  expect(lower).toBeLessThanOrEqual(published * 1.02)
  expect(upper).toBeGreaterThanOrEqual(published * 0.98)
})

test('the spread at 50 °C is 80 to 380 min, at 60 °C 0.74 to 3.1 min', () => {
  const at = (temperatureC: number) => heatInactivation({ temperatureC, minutes: 1 }).decimalReductionMinutes
  expect(at(50)).toMatchObject({ lower: 80, upper: 380 })
  expect(at(60).lower).toBe(0.74)
  expect(at(60).upper).toBeCloseTo(3.1, 1)
})

test('worked example: from 100 000 to 100 CFU/L at 60 °C takes 6 min', () => {
  expect(heatInactivation({ temperatureC: 60, minutes: 6 }).log10Reduction.central).toBeCloseTo(3, 9)
})

test.each([
  // source, mg/L, min, pH, °C, log10
  ['Kuchta', 0.1, 40, 7.6, 21, 2],
  ['Kuchta, cold', 0.1, 80, 7.6, 4, 2],
  ['Water Research, 1 min', 12, 1, 7.4, 25, 6.778],
  ['Water Research, 10 min', 2.5, 10, 7.4, 25, 6.778],
  ['Water Research, 30 min', 0.5, 30, 7.4, 25, 6.778],
])('%s', (_, residualMgPerL, minutes, pH, temperatureC, published) => {
  const got = disinfectantContact({ residualMgPerL, minutes, pH, temperatureC, disinfectant: 'free-chlorine' })
  expect(got.log10Reduction.lower).toBeLessThanOrEqual(published * (1 + 1e-9))
  expect(got.log10Reduction.upper).toBeGreaterThanOrEqual(published * (1 - 1e-9))
})

test('C × t: 4, about 8, and 12, 25 and 15 mg min/L; cold doubles what the same study found', () => {
  const water = { disinfectant: 'free-chlorine' as const, pH: 7.6 }
  const ct = (residualMgPerL: number, minutes: number) =>
    disinfectantContact({ ...water, residualMgPerL, minutes, temperatureC: 21 }).ctMgMinPerL
  expect([ct(0.1, 40), ct(12, 1), ct(2.5, 10), ct(0.5, 30)]).toEqual([4, 12, 25, 15])
  const needed = (temperatureC: number) =>
    disinfectantContact({ ...water, residualMgPerL: 1, minutes: 1, temperatureC }).ctPerLog10
  expect(needed(4).central / needed(21).central).toBeCloseTo(2, 9)
})

test('monochloramine: 99 % at 15 mg min/L, not the 37 min of E. coli', () => {
  const water = { disinfectant: 'monochloramine' as const, pH: 7.5, temperatureC: 20 }
  const got = disinfectantContact({ ...water, residualMgPerL: 1, minutes: 15 })
  expect(got.log10Reduction.central).toBe(2)
  expect(disinfectantContact({ ...water, residualMgPerL: 1, minutes: 37 }).log10Reduction.central).toBeGreaterThan(4)
  expect(got.basis).toContain('One published figure')
})
