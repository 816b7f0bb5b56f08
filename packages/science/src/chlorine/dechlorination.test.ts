import table from '@rillmark/reference/chlorine/dechlorination.json' with { type: 'json' }
import { expect, test } from 'vitest'
import { dechlorination } from './dechlorination.ts'

test.each(table.agents)(
  '$id: in proportion to water and residual, and the field dose is not below the least the equation asks',
  ({ id }) => {
    const one = dechlorination({ waterVolumeL: 1000, residualMgPerL: 1, agent: id })
    const more = dechlorination({ waterVolumeL: 3000, residualMgPerL: 7, agent: id })
    expect(more.kilograms).toBeCloseTo(21 * one.kilograms, 12)
    expect(more.stoichiometricKilograms).toBeCloseTo(21 * one.stoichiometricKilograms, 12)
    expect(one.kilograms).toBeGreaterThan(one.stoichiometricRangeKilograms.lower)
    expect(one.stoichiometricKilograms).toBe(one.stoichiometricRangeKilograms.upper)
  },
)

test('the same thiosulfate needs more weight as crystals', () => {
  const dose = (agent: string) => dechlorination({ waterVolumeL: 1000, residualMgPerL: 1, agent })
  const [crystals, dry] = [dose('sodium-thiosulfate-pentahydrate'), dose('sodium-thiosulfate')]
  expect(crystals.kilograms / dry.kilograms).toBeCloseTo(248.18 / 158.11, 3)
  expect(crystals.basis).toContain('does not say which salt')
})

test('an unknown agent is refused', () => {
  expect(() => dechlorination({ waterVolumeL: 1, residualMgPerL: 1, agent: 'soap' })).toThrow(RangeError)
})
