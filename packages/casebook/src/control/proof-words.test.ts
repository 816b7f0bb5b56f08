import { expect, test } from 'vitest'
import type { BodyOf } from '../entry/kinds.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { controlView } from './control-view.ts'
import { placesWords, proofWord } from './proof-words.ts'

const { make } = entryMaker('marram-house')

/** One measure with two places, one of them proved. */
function proved(target: BodyOf<'measure.ordered'>['target'], reached: boolean) {
  const ordered = make('measure.ordered', {
    measure: target === undefined ? 'fit point-of-use filter' : 'flush',
    stage: 'immediate',
    where: 'riser C',
    components: ['c1', 'c2'],
    owner: 'Facility',
    ...(target === undefined ? {} : { target }),
  })
  const proof = make('measure.achieved', {
    measure: ordered.id,
    component: 'c1',
    at: '2026-03-02T09:00:00.000Z',
    reached,
    by: 'R. Vale',
  })
  const [view] = controlView(derive('marram-house', [ordered, proof]), '2026-03-03').measures
  const [first] = view?.places ?? []
  if (view === undefined || first?.proof === undefined) throw new Error('no proof')
  return [proofWord(view.measure, first.proof), placesWords(view.measure, view)]
}

test('[CTL11] a target is reached or not; without one the work is done, and nothing is said to be reached', () => {
  const target = { quantity: 'flush time', value: 5, unit: 'min' } as const
  expect(proved(target, true)).toEqual(['reached', '1 of 2 reached the target'])
  expect(proved(target, false)).toEqual(['not reached', '0 of 2 reached the target'])
  expect(proved(undefined, true)).toEqual(['done', '1 of 2 done'])
  expect(proved(undefined, false)).toEqual(['not done', '0 of 2 done'])
})
