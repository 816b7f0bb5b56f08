// AWWA, Disinfection of Pipelines and Storage Facilities Field Guide, 2006, Tables 7-2 and 7-5: field doses at pH 7,
// also in pounds per 100 000 gal and kg per 100 m³ for each mg/L. Known by: seen. Stoichiometric: computed.
// Tolerances: pounds to 1 % and kg to half of the last printed place, as the three columns are rounded apart.
import { dechlorination } from '@rillmark/science/chlorine/dechlorination.ts'
import { expect, test } from 'vitest'

const LITRES_PER_100_000_GALLONS = 378_541.1784
const KG_PER_POUND = 0.45359237

test.each([
  // agent, mg per mg, lb per 100 000 gal, kg per 100 m³
  ['sodium-thiosulfate', 1.9, 1.58, 0.19],
  ['sodium-bisulfite', 1.61, 1.34, 0.16],
  ['sodium-metabisulfite', 1.47, 1.23, 0.15],
  ['sodium-sulfite', 1.96, 1.63, 0.2],
  ['ascorbic-acid', 2.5, 2.08, 0.25],
  ['sodium-ascorbate', 2.8, 2.33, 0.28],
])('%s', (agent, mgPerMg, pounds, kilograms) => {
  const dose = (waterVolumeL: number) => dechlorination({ waterVolumeL, residualMgPerL: 1, agent }).kilograms
  expect(dose(1e6)).toBeCloseTo(mgPerMg, 12)
  expect(Math.abs(dose(LITRES_PER_100_000_GALLONS) / KG_PER_POUND / pounds - 1)).toBeLessThan(0.01)
  expect(Math.abs(dose(100_000) - kilograms)).toBeLessThanOrEqual(0.005)
})

test.each([
  // agent, least and most mg per mg by the equation; molar masses from memory, so to three figures
  ['sodium-thiosulfate', 0.5575, 4.46],
  ['sodium-thiosulfate-pentahydrate', 0.875, 7],
  ['sodium-bisulfite', 1.468, 1.468],
  ['sodium-metabisulfite', 1.341, 1.341],
  ['sodium-sulfite', 1.778, 1.778],
  ['ascorbic-acid', 2.484, 2.484],
  ['sodium-ascorbate', 2.794, 2.794],
])('%s by the equation', (agent, least, most) => {
  const got = dechlorination({ waterVolumeL: 1e6, residualMgPerL: 1, agent })
  expect(got.stoichiometricRangeKilograms.lower).toBeCloseTo(least, 2)
  expect(got.stoichiometricKilograms).toBeCloseTo(most, 2)
})

test('10 m³ at 50 mg/L: 0.95 kg of thiosulfate or 1.25 kg of ascorbic acid', () => {
  const dose = (agent: string) => dechlorination({ waterVolumeL: 10_000, residualMgPerL: 50, agent }).kilograms
  expect(dose('sodium-thiosulfate')).toBeCloseTo(0.95, 12)
  expect(dose('ascorbic-acid')).toBeCloseTo(1.25, 12)
})
