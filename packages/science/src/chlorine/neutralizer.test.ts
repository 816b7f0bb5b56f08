import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { type NeutralizerInput, neutralizer } from './neutralizer.ts'

const amount = fc.double({ min: 0.001, max: 1000, noNaN: true })
const inputs: fc.Arbitrary<NeutralizerInput> = fc.record({
  residualMgPerL: amount,
  residualKind: fc.constantFrom('free-chlorine', 'total-chlorine'),
  sampleVolumeMl: amount,
  solutionNormality: amount,
  solutionVolumeMl: amount,
})

test('the required volume covers, and a little less does not', () => {
  fc.assert(
    fc.property(inputs, (input) => {
      const { requiredVolumeMl } = neutralizer(input)
      expect(neutralizer({ ...input, solutionVolumeMl: requiredVolumeMl * 1.000001 }).covered).toBe(true)
      expect(neutralizer({ ...input, solutionVolumeMl: requiredVolumeMl * 0.999999 }).covered).toBe(false)
    }),
  )
})

test('twice the bottle with twice the dose covers the same', () => {
  fc.assert(
    fc.property(inputs, (input) => {
      const twice = { ...input, sampleVolumeMl: 2 * input.sampleVolumeMl, solutionVolumeMl: 2 * input.solutionVolumeMl }
      expect(neutralizer(twice).capacityMgPerL).toBeCloseTo(neutralizer(input).capacityMgPerL, 9)
    }),
  )
})

test('no dose covers no residual, and nothing else', () => {
  const input: NeutralizerInput = {
    residualMgPerL: 0,
    residualKind: 'total-chlorine',
    sampleVolumeMl: 1000,
    solutionNormality: 0.1,
    solutionVolumeMl: 0,
  }
  expect(neutralizer(input)).toMatchObject({ capacityMgPerL: 0, covered: true, requiredVolumeMl: 0 })
  expect(neutralizer({ ...input, residualMgPerL: 0.01 }).covered).toBe(false)
})
