// Thiosulfate against chlorine.
// Chemical supplier's support note TE213 (2017): 1.13 mL of 0.0250 N per mg of chlorine. Known by: seen.
// CDC, Sampling Procedure and Potential Sampling Sites: 0.5 mL of 0.1 N into 1 L. Dose seen; what it covers, 1.77 mg/L
// at one electron, is computed, as is the 1.128 mL that 4.0 mg/L (the United States maximum) takes.
import { neutralizer } from '@rillmark/science/chlorine/neutralizer.ts'
import { expect, test } from 'vitest'

const litre = { residualKind: 'free-chlorine' as const, sampleVolumeMl: 1000 }

test.each([
  // residual mg/L, normality, volume mL, covers mg/L, needs mL, rounding of what is printed
  ['TE213: 1 mg in a litre', 1, 0.025, 1, 0.886, 1.13, 2],
  ['CDC dose on 2 mg/L', 2, 0.1, 0.5, 1.77, 0.564, 2],
  ['CDC solution on 4 mg/L', 4, 0.1, 0.5, 1.77, 1.128, 2],
])('%s', (_, residualMgPerL, solutionNormality, solutionVolumeMl, covers, needs, decimals) => {
  const got = neutralizer({ ...litre, residualMgPerL, solutionNormality, solutionVolumeMl })
  expect(got.capacityMgPerL).toBeCloseTo(covers, decimals)
  expect(got.requiredVolumeMl).toBeCloseTo(needs, decimals)
  expect(got.covered).toBe(residualMgPerL <= covers)
})

test('1.7 mg/L is within the CDC dose, 1.8 is not', () => {
  const dose = { ...litre, solutionNormality: 0.1, solutionVolumeMl: 0.5 }
  expect(neutralizer({ ...dose, residualMgPerL: 1.7 }).covered).toBe(true)
  expect(neutralizer({ ...dose, residualMgPerL: 1.8 }).covered).toBe(false)
})

test('a 120 mL bottle with 0.1 mL of 10 % pentahydrate covers 11.9 mg/L at one electron', () => {
  // Standard Methods 9060A as restated: the dose is seen, the cover computed. 100 g/L of 248.18 g/mol.
  const got = neutralizer({
    residualKind: 'total-chlorine',
    residualMgPerL: 15,
    sampleVolumeMl: 120,
    solutionNormality: 100 / 248.18,
    solutionVolumeMl: 0.1,
  })
  expect(got.capacityMgPerL).toBeCloseTo(11.9, 1)
  expect(got.covered).toBe(false)
})
