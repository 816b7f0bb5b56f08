import { expect, test } from 'vitest'
import { readLabel } from '../label/label.ts'
import { labelLetters, labelPlan, labelsOf } from './label-plan.ts'
import { makePlan } from './make-plan.ts'
import { marramInput } from './marram-plan.fixture.ts'

const plan = makePlan(marramInput())

test('[PLN14] labels count up in walking order from the highest taken and read as printed', () => {
  const labels = labelsOf(labelPlan({ plan, taken: ['MRH-0001-97', 'nonsense'], letters: 'MRH' }))
  expect(labels).toHaveLength(plan.totals.samples)
  expect(labels.every((label) => readLabel(label).kind === 'ok')).toBe(true)
  expect(labels).toEqual(labels.toSorted())
  const next = labelsOf(labelPlan({ plan, taken: labels, letters: 'MRH' }))
  expect(new Set([...labels, ...next]).size).toBe(2 * labels.length)
})

test('[PLN14] the same plan and labels taken give the same labels', () => {
  expect(labelPlan({ plan, taken: [], letters: 'MRH' })).toEqual(labelPlan({ plan, taken: new Set(), letters: 'MRH' }))
})

test('a duplicate names the label it repeats', () => {
  const { stops } = labelPlan({ plan, taken: [], letters: 'MRH' })
  const stop = stops.find(({ samples }) => samples.some(({ sampleKind }) => sampleKind === 'duplicate'))
  const repeats = stop?.samples.find(({ sampleKind }) => sampleKind === 'duplicate')?.repeats
  expect(stop?.samples.map(({ label }) => label)).toContain(repeats)
})

test.each([
  ['Marram House', [], 'MRH'],
  ['Aloe', [], 'AER'],
  ['Дом', [], 'RMK'],
  ['Marram House', ['ABC-0001-00', labelsOf(labelPlan({ plan, taken: [], letters: 'XYZ' }))[0] ?? ''], 'XYZ'],
])('letters of %s with %j taken are %s', (title, taken, letters) => {
  expect(labelLetters({ title, taken })).toBe(letters)
})
