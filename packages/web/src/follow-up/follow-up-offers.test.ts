import { NEGATIVE, roundWriter } from '@rillmark/casebook/follow-up/follow-up.fixture.ts'
import { followUpView } from '@rillmark/casebook/follow-up/follow-up-view.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { expect, test } from 'vitest'
import { worked, wrongWith } from '../calculators/offers.fixture.ts'
import { followUpOffers } from './follow-up-offers.ts'

const today = '2026-03-05'
const write = roundWriter()
const state = derive('marram-house', [
  write.started('2026-01-31'),
  ...write.round('2026-02-14', { code: 'R2', value: NEGATIVE }),
  ...write.round('2026-02-28', { code: 'R3', value: NEGATIVE }),
])
const view = followUpView(state, today)

test('every offer is a calculation that takes what is filled in, before and after a start', () => {
  expect(wrongWith(followUpOffers(state, { view, today }))).toEqual([])
  const fresh = derive('marram-house', [])
  expect(wrongWith(followUpOffers(fresh, { view: followUpView(fresh, today), today }))).toEqual([])
})

test('the dates worked in place are the dates the screen shows', () => {
  expect(worked(followUpOffers(state, { view, today }), 'follow-up-dates')).toEqual(view.schedule)
})
