import { expect, test } from 'vitest'
import type { BodyOf } from '../entry/kinds.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { controlView } from './control-view.ts'

const { make } = entryMaker('marram-house')
const ordered = (body: Partial<BodyOf<'measure.ordered'>>) =>
  make('measure.ordered', {
    measure: 'flush',
    stage: 'immediate',
    where: 'riser C',
    components: ['c1', 'c2'],
    owner: 'Facility',
    dueOn: '2026-03-10',
    target: { quantity: 'flush time', value: 5, unit: 'min' },
    ...body,
  })
const proof = (measure: string, component: string, minutes: number) =>
  make('measure.achieved', {
    measure,
    component,
    at: '2026-03-02T09:00:00.000Z',
    achieved: { quantity: 'flush time', value: minutes, unit: 'min' },
    reached: minutes >= 5,
    by: 'R. Vale',
  })

test('[CTL9] says how far each measure is proved, where not yet, and by how many days it is late', () => {
  const flush = ordered({})
  const dropped = ordered({ measure: 'restrict use' })
  const state = derive('marram-house', [
    flush,
    dropped,
    proof(flush.id, 'c1', 6),
    proof(flush.id, 'c1', 2),
    proof(flush.id, 'c2', 3),
    make('measure.completed', { measure: dropped.id, completedOn: '2026-03-02', outcome: 'dropped', reason: 'x' }),
  ])
  const { measures, open, late } = controlView(state, '2026-03-12')
  expect(measures[0]).toMatchObject({ reached: 1, missing: ['c2'], state: 'late', daysLate: 2 })
  expect(measures[0]?.measure.ordered.body.target).toMatchObject({ value: 5, unit: 'min' })
  expect(measures[1]).toMatchObject({ state: 'dropped', daysLate: 0 })
  expect({ open, late }).toEqual({ open: 1, late: 1 })
  expect(controlView(state, '2026-03-10').measures[0]?.state).toBe('in hand')
})
