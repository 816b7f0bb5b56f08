import { expect, test } from 'vitest'
import { doseOfVolumeMl } from './dose-per-litre.ts'
import { neutralizer } from './neutralizer.ts'

test('a litre takes the dose as stated, other bottles their share', () => {
  expect(doseOfVolumeMl({ mlPerL: 0.5, volumeMl: 1000 })).toBe(0.5)
  expect(doseOfVolumeMl({ mlPerL: 0.5, volumeMl: 0 })).toBe(0)
})

test('a dose per litre covers the same residual in a bottle of any size', () => {
  const capacities = [100, 250, 500, 1000, 2000].map((sampleVolumeMl) => {
    const solutionVolumeMl = doseOfVolumeMl({ mlPerL: 0.5, volumeMl: sampleVolumeMl })
    const given = { residualMgPerL: 1, residualKind: 'free-chlorine', solutionNormality: 0.1 } as const
    return neutralizer({ ...given, sampleVolumeMl, solutionVolumeMl }).capacityMgPerL
  })
  for (const capacity of capacities) expect(capacity).toBeCloseTo(capacities[0] ?? 0, 12)
})

test('no dose or volume below nothing', () => {
  expect(() => doseOfVolumeMl({ mlPerL: -1, volumeMl: 1 })).toThrow(RangeError)
  expect(() => doseOfVolumeMl({ mlPerL: Number.NaN, volumeMl: 1 })).toThrow(RangeError)
})
