// Doses of hypochlorite. The published examples read per cent as grams per 100 mL, so a density of 1 reproduces them.
import { type ShockDoseInput, shockDose } from '@rillmark/science/chlorine/shock-dose.ts'
import { expect, test } from 'vitest'
import { type From, hold } from './rows.ts'

const LITRES_PER_GALLON = 3.785411784
const KG_PER_POUND = 0.45359237
const MAINE: From = 'seen: Maine CDC, Disinfection Equations'
const HANDOUT: From = 'seen: public training handout on disinfecting tanks'
const RULE: From = 'seen: public table for household bleach, rounded to whole gallons'
const DILUTION: From = 'computed: C1 V1 = C2 V2'
const FIGURES = 'printed to two or three figures, with 8.33 or 8.34 lb to the gallon'
const EXACT = 'arithmetic'

const solution = (availableChlorinePercent: number, densityKgPerL = 1) => ({
  kind: 'sodium-hypochlorite' as const,
  availableChlorinePercent,
  densityKgPerL,
})
const solid = (availableChlorinePercent: number) => ({
  kind: 'calcium-hypochlorite' as const,
  availableChlorinePercent,
})
const gallons = (count: number, targetMgPerL: number) => ({ waterVolumeL: count * LITRES_PER_GALLON, targetMgPerL })

type Dose = Omit<ShockDoseInput, 'demandMgPerL'> & { demandMgPerL?: number }
const run = (input: Dose) => shockDose({ demandMgPerL: 0, ...input })

// biome-ignore format: a table, one row a line
hold<Dose>(
  [
    ['5000 gal to 100 with 6 %', { ...gallons(5000, 100), product: solution(6) }, 8.33, { share: 0.01 }, FIGURES, MAINE],
    ['550 gal to 200 with 12.5 %', { ...gallons(550, 200), product: solution(12.5) }, 0.88, { share: 0.01 }, FIGURES, HANDOUT],
    ['1000 gal to 50 with 5.25 %', { ...gallons(1000, 50), product: solution(5.25) }, 1, { share: 0.06 }, 'whole gallons: 1 gal makes 52.5 mg/L', RULE],
    ['1000 gal to 100 with 5.25 %', { ...gallons(1000, 100), product: solution(5.25) }, 2, { share: 0.06 }, 'whole gallons: 2 gal make 105 mg/L', RULE],
  ],
  (input) => (run(input).litres ?? 0) / LITRES_PER_GALLON,
)

// biome-ignore format: a table, one row a line
hold<Dose>(
  [
    ['5000 gal to 100 with 65 %', { ...gallons(5000, 100), product: solid(65) }, 6.4, { share: 0.01 }, FIGURES, MAINE],
    ['550 gal to 200 with 12.5 %', { ...gallons(550, 200), product: solid(12.5) }, 7.36, { share: 0.01 }, FIGURES, HANDOUT],
    ['550 gal to 200, chlorine', { ...gallons(550, 200), product: solid(100) }, 0.92, { share: 0.01 }, FIGURES, HANDOUT],
    ['1 m³ to 50 with 65 %', { waterVolumeL: 1000, targetMgPerL: 50, product: solid(65) }, 0.076923 / KG_PER_POUND, { share: 1e-5 }, 'five digits', DILUTION],
  ],
  (input) => (run(input).kilograms ?? 0) / KG_PER_POUND,
)

// biome-ignore format: a table, one row a line
hold<Dose>(
  [
    ['trap: 12.5 trade per cent, 125 g/L, by weight at 1.21', { waterVolumeL: 1000, targetMgPerL: 50, product: solution(12.5 / 1.21, 1.21) }, 0.4, 1e-12, EXACT, DILUTION],
    ['trap: 12.5 trade per cent, read at a density of 1', { waterVolumeL: 1000, targetMgPerL: 50, product: solution(12.5) }, 0.4, 1e-12, EXACT, DILUTION],
    ['demand adds to the target', { waterVolumeL: 250, targetMgPerL: 20, demandMgPerL: 5, product: solution(10, 1.25) }, 0.05, 1e-12, EXACT, DILUTION],
    ['nothing wanted', { waterVolumeL: 1000, targetMgPerL: 0, product: solution(10, 1.1) }, 0, 0, EXACT, DILUTION],
    ['a teaspoon of weak bleach', { waterVolumeL: 1, targetMgPerL: 200, product: solution(4, 1.05) }, 0.2 / 42, 1e-12, EXACT, DILUTION],
  ],
  (input) => run(input).litres,
)

test('trap: trade per cent taken for per cent by weight makes the dose too small, by the density', () => {
  const water = { waterVolumeL: 1000, targetMgPerL: 50, demandMgPerL: 0 }
  const right = shockDose({ ...water, product: solution(12.5 / 1.21, 1.21) }).litres ?? 0
  const wrong = shockDose({ ...water, product: solution(12.5, 1.21) }).litres ?? 0
  expect(right / wrong).toBeCloseTo(1.21, 12)
})
