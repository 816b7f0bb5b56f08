// Published worked doses of hypochlorite.
// Maine CDC, Disinfection Equations; a public training handout on disinfecting tanks. Known by: seen.
// 1 m³ to 50 mg/L. Known by: computed.
// The published examples read per cent as grams per 100 mL, so a density of 1 reproduces them.
// Tolerance 1 %: answers are printed to two or three figures, and take 8.33 or 8.34 lb to the gallon.
import { shockDose } from '@rillmark/science/chlorine/shock-dose.ts'
import { expect, test } from 'vitest'

const LITRES_PER_GALLON = 3.785411784
const KG_PER_POUND = 0.45359237
const TOLERANCE = 0.01

test.each([
  // source, gallons, mg/L, per cent, published gallons
  ['Maine CDC', 5000, 100, 6, 8.33],
  ['training handout', 550, 200, 12.5, 0.88],
])('%s: %d gal to %d mg/L with %d %% solution', (_, gallons, targetMgPerL, availableChlorinePercent, published) => {
  const { litres = 0 } = shockDose({
    waterVolumeL: gallons * LITRES_PER_GALLON,
    targetMgPerL,
    demandMgPerL: 0,
    product: { kind: 'sodium-hypochlorite', availableChlorinePercent, densityKgPerL: 1 },
  })
  expect(Math.abs(litres / LITRES_PER_GALLON / published - 1)).toBeLessThan(TOLERANCE)
})

test.each([
  // source, water L, mg/L, per cent, published kg
  ['Maine CDC', 5000 * LITRES_PER_GALLON, 100, 65, 6.4 * KG_PER_POUND],
  ['dilution', 1000, 50, 65, 0.0769],
])(
  '%s: %d L to %d mg/L with %d %% calcium hypochlorite',
  (_, waterVolumeL, targetMgPerL, availableChlorinePercent, published) => {
    const product = { kind: 'calcium-hypochlorite' as const, availableChlorinePercent }
    const { kilograms = 0 } = shockDose({ waterVolumeL, targetMgPerL, demandMgPerL: 0, product })
    expect(Math.abs(kilograms / published - 1)).toBeLessThan(TOLERANCE)
  },
)

test('training handout: 550 gal at 200 mg/L is 0.92 lb of chlorine', () => {
  const product = { kind: 'calcium-hypochlorite' as const, availableChlorinePercent: 12.5 }
  const got = shockDose({ waterVolumeL: 550 * LITRES_PER_GALLON, targetMgPerL: 200, demandMgPerL: 0, product })
  expect(got.chlorineKilograms / KG_PER_POUND).toBeCloseTo(0.92, 2)
})

test('1 m³ to 50 mg/L takes 0.400 L of a solution of 125 g/L, however dense', () => {
  const at = (densityKgPerL: number) =>
    shockDose({
      waterVolumeL: 1000,
      targetMgPerL: 50,
      demandMgPerL: 0,
      product: { kind: 'sodium-hypochlorite', availableChlorinePercent: 12.5 / densityKgPerL, densityKgPerL },
    }).litres
  expect(at(1.21)).toBeCloseTo(0.4, 12)
  expect(at(1)).toBeCloseTo(0.4, 12)
})
