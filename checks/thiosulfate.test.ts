// Thiosulfate against chlorine, at one electron: the least it can give.
import { type NeutralizerInput, neutralizer } from '@rillmark/science/chlorine/neutralizer.ts'
import { expect, test } from 'vitest'
import { type From, hold } from './rows.ts'

const NOTE: From = "seen: chemical supplier's support note TE213 (2017): 1.13 mL of 0.0250 N per mg of chlorine"
const CDC: From = 'computed: one electron, for the 0.5 mL of 0.1 N per litre of the CDC sampling procedure (dose seen)'
const STANDARD: From =
  'computed: one electron, for a dose of Standard Methods 9060A as restated on a public page (dose seen)'
const JOURNAL: From = 'computed: one electron, for the dose of J. Hygiene 1953 (dose seen)'
const UK: From = 'computed: one electron, for a dose of United Kingdom practice (dose from memory)'
const EQUATION: From = 'computed: 2 S2O3²⁻ + HOCl → S4O6²⁻ + Cl⁻ + OH⁻, molar masses 70.906, 158.11 and 248.18'
const PRINTED = 'half a last printed digit'

const litre = { residualKind: 'free-chlorine' as const, residualMgPerL: 1, sampleVolumeMl: 1000, solutionVolumeMl: 1 }

// biome-ignore format: a table, one row a line
hold<Partial<NeutralizerInput>>(
  [
    ['1 mg in a litre', { solutionNormality: 0.025 }, 1.13, 0.005, PRINTED, NOTE],
    ['2 mg/L with the CDC solution', { solutionNormality: 0.1, residualMgPerL: 2 }, 0.564, 5e-4, PRINTED, CDC],
    ['4 mg/L with the CDC solution', { solutionNormality: 0.1, residualMgPerL: 4 }, 1.128, 5e-4, PRINTED, CDC],
  ],
  (input) => neutralizer({ ...litre, solutionNormality: 1, ...input }).requiredVolumeMl,
)

/** Normality, at one electron, of grams per litre of a salt. */
const normality = (gramsPerL: number, molarMass: number) => gramsPerL / molarMass
const [DRY, CRYSTALS] = [158.11, 248.18]
const bottle = (sampleVolumeMl: number, solutionNormality: number) => ({
  sampleVolumeMl,
  solutionNormality,
  solutionVolumeMl: 0.1,
})

// biome-ignore format: a table, one row a line
hold<Partial<NeutralizerInput>>(
  [
    ['CDC dose', { solutionNormality: 0.1, solutionVolumeMl: 0.5 }, 1.77, 0.005, PRINTED, CDC],
    ['10 % in 120 mL, if crystals', bottle(120, normality(100, CRYSTALS)), 11.9, 0.05, PRINTED, STANDARD],
    ['10 % in 120 mL, if anhydrous', bottle(120, normality(100, DRY)), 18.7, 0.05, PRINTED, STANDARD],
    ['3 % in 120 mL, if crystals', bottle(120, normality(30, CRYSTALS)), 3.57, 0.005, PRINTED, STANDARD],
    ['3 % in 120 mL, if anhydrous', bottle(120, normality(30, DRY)), 5.61, 0.01, PRINTED, STANDARD],
    ['3 % crystals in 170 mL', bottle(170, normality(30, CRYSTALS)), 2.51, 0.02, 'bottle of "about 170 mL"', JOURNAL],
    ['18 mg/L of crystals', { solutionNormality: normality(18, CRYSTALS) }, 2.57, 0.005, PRINTED, UK],
    ['180 mg/L of crystals', { solutionNormality: normality(180, CRYSTALS) }, 25.7, 0.05, PRINTED, UK],
    ['1 mg/L of anhydrous salt', { solutionNormality: normality(1, DRY) }, 0.2242, 5e-5, PRINTED, EQUATION],
    ['1 mg/L of crystals', { solutionNormality: normality(1, CRYSTALS) }, 0.1429, 5e-5, PRINTED, EQUATION],
  ],
  (input) => neutralizer({ ...litre, solutionNormality: 1, ...input }).capacityMgPerL,
)

test('trap: claims of cover take other reactions or salts, so none is met that one electron does not meet', () => {
  // 15 mg/L is claimed for 10 % in 120 mL, 5 mg/L for 3 % of crystals in 170 mL, 4.0 mg/L is the United States maximum.
  const covered = (input: Partial<NeutralizerInput>) =>
    neutralizer({ ...litre, solutionNormality: 1, ...input }).covered
  expect(covered({ ...bottle(120, normality(100, CRYSTALS)), residualMgPerL: 15 })).toBe(false)
  expect(covered({ ...bottle(120, normality(100, DRY)), residualMgPerL: 15 })).toBe(true)
  expect(covered({ ...bottle(170, normality(30, CRYSTALS)), residualMgPerL: 5 })).toBe(false)
  const cdc = { solutionNormality: 0.1, solutionVolumeMl: 0.5 }
  expect([1.7, 1.8, 4].map((residualMgPerL) => covered({ ...cdc, residualMgPerL }))).toEqual([true, false, false])
})
