import { makePlan } from '@rillmark/casebook/plan/make-plan.ts'
import { marramInput } from '@rillmark/casebook/plan/marram-plan.fixture.ts'
import { expect, test } from 'vitest'
import { planLayer } from './plan-layer.ts'

const plan = makePlan(marramInput({ budget: { samples: 24 } }))
const { marks } = planLayer(plan)

test('every stop with a place is marked by its number in walking order, blanks are not', () => {
  const numbered = marks.flatMap(({ text }) => (text === undefined ? [] : [Number(text)]))
  const wanted = plan.stops.flatMap(({ component }, at) => (component === undefined ? [] : [at + 1]))
  expect(numbered).toEqual(wanted)
})

test('a return is marked on its pipe, an outlet at its place', () => {
  expect(marks.filter(({ pipe }) => pipe !== undefined)).toHaveLength(4)
  expect(marks.find(({ label }) => label.includes('605 shower'))).toMatchObject({
    component: 'shower-c605',
    form: 'disc',
  })
})

test('points left out are told apart by form, not by tone alone', () => {
  const left = marks.filter(({ label }) => label.startsWith('left out'))
  expect(left).toHaveLength(plan.leftOut.length)
  expect(new Set(left.map(({ form }) => form))).toEqual(new Set(['dashed-ring']))
})
