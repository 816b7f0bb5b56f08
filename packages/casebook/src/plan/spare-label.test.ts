import { expect, test } from 'vitest'
import { readLabel } from '../label/label.ts'
import { derive } from '../state/derive.ts'
import { labelPlan, labelsOf } from './label-plan.ts'
import { makePlan } from './make-plan.ts'
import { marramInput } from './marram-plan.fixture.ts'
import { spareLabel } from './spare-label.ts'

const empty = derive('marram-house', [])
const withSample = (...labels: string[]): typeof empty => {
  const state = derive('marram-house', [])
  for (const label of labels) state.fieldwork.samples.set(label, {} as never)
  return state
}

test('[PLN21] devices that do not hear of each other offer different spare labels, each the same until it is taken', () => {
  const offered = Array.from({ length: 20 }, (_, n) => spareLabel(empty, { device: `browser-${n}` }))
  expect(new Set(offered).size).toBe(20)
  expect(offered.every((label) => readLabel(label).kind === 'ok')).toBe(true)
  expect(spareLabel(empty, { device: 'browser-3' })).toBe(offered[3])
})

test('[PLN21] a device counts on from what it gave', () => {
  const first = spareLabel(empty, { device: 'browser-1' })
  const second = spareLabel(withSample(first), { device: 'browser-1' })
  const number = (label: string): number => Number(label.slice(4, 8))
  expect(number(second) - number(first)).toBe(number(first) === 9999 ? -4999 : 1)
})

test('[PLN21] planned labels stay below spare ones and step over those taken', () => {
  const plan = makePlan(marramInput())
  const spare = spareLabel(empty, { device: 'browser-1' })
  const [first, second] = labelsOf(labelPlan({ plan, taken: [], letters: 'MRH' }))
  expect(labelsOf(labelPlan({ plan, taken: [spare.replace(/^.../, 'MRH')], letters: 'MRH' }))[0]).toBe(first)
  expect(labelsOf(labelPlan({ plan, taken: [first ?? ''], letters: 'MRH' }))[0]).toBe(second)
})
