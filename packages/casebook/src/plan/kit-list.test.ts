import { expect, test } from 'vitest'
import { PROCEDURES } from '../procedures/procedures.ts'
import { kitList } from './kit-list.ts'
import { makePlan } from './make-plan.ts'
import { marramInput } from './marram-plan.fixture.ts'

const plan = makePlan(marramInput())
const kit = kitList({ plan, procedures: PROCEDURES, disinfectant: 'chloramine' })
const row = (item: RegExp) => kit.flatMap(({ rows }) => rows).find((one) => item.test(one.item))
const count = (kind: string): number =>
  plan.stops.flatMap(({ samples }) => samples).filter(({ sampleKind }) => sampleKind === kind).length

test('[PLN17] bottles, tubes and labels are counted from the samples, with one spare in ten', () => {
  const swabs = count('first-flush-swab')
  const litres = plan.totals.samples - swabs
  expect(row(/screw tube/)?.quantity).toBe(swabs + Math.ceil(swabs / 10))
  expect(row(/sterile plastic bottle/)?.quantity).toBe(litres + Math.ceil(litres / 10))
  expect(row(/labels, printed/)?.quantity).toBe(plan.totals.samples)
})

test('[PLN17] neutralizer covers half a millilitre a litre and a drop a tube', () => {
  const needed = 0.5 * (plan.totals.samples - count('first-flush-swab')) + 0.05 * count('first-flush-swab')
  expect(row(/thiosulfate/)?.quantity).toBe(Math.ceil(needed * 1.1))
})

test('[PLN17] the chlorine test fits the disinfectant', () => {
  expect(row(/chlorine test/)?.item).toBe('chlorine test, total')
  const free = kitList({ plan, procedures: PROCEDURES, disinfectant: 'free-chlorine' })
  expect(free.flatMap(({ rows }) => rows).map(({ item }) => item)).toContain('chlorine test, free')
})

test('an empty plan needs nothing', () => {
  expect(kitList({ plan: { ...plan, stops: [] }, procedures: PROCEDURES, disinfectant: undefined })).toEqual([])
})
