import { expect, test } from 'vitest'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { careLink } from './care-link.ts'
import { sharedPlaces } from './shared-places.ts'
import { caseWindows } from './windows.ts'

const { make } = entryMaker('marram-house')
const aCase = (code: string, onsetDate?: string) =>
  make('case.recorded', {
    code,
    ...(onsetDate === undefined ? {} : { onsetDate }),
    classification: 'confirmed',
    link: 'not judged',
    isolate: 'not known',
  })
const stay = (caseCode: string, { place, from, to }: { place: string; from: string; to: string }) =>
  make('exposure.recorded', { caseCode, place, kind: 'stay', from, to })

const { cases: state } = derive('marram-house', [
  aCase('C1', '2026-02-15'),
  aCase('C2', '2026-02-20'),
  aCase('C3'),
  stay('C1', { place: 'North wing', from: '2026-01-01', to: '2026-02-15' }),
  stay('C2', { place: 'north wing ', from: '2026-02-12', to: '2026-02-14' }),
  stay('C2', { place: 'Spa', from: '2026-02-15', to: '2026-02-16' }),
  stay('C3', { place: 'Spa', from: '2026-02-15', to: '2026-02-16' }),
])

test('[CAS6] until a window is chosen it reaches 14 days back; unknown onsets have none and come last', () => {
  const windows = caseWindows(state)
  expect(windows.map(({ code, window }) => [code, window])).toEqual([
    ['C1', { from: '2026-02-01', to: '2026-02-15' }],
    ['C2', { from: '2026-02-06', to: '2026-02-20' }],
    ['C3', undefined],
  ])
})

test('[CAS7] places touched by most windows come first; a stay counts once a day and only inside the window', () => {
  const [first, second] = sharedPlaces(state)
  expect(first).toMatchObject({ place: 'North wing', inWindow: 2 })
  expect(first?.cases.map(({ code, days }) => [code, days])).toEqual([
    ['C1', 15],
    ['C2', 3],
  ])
  expect(second).toMatchObject({ place: 'Spa', inWindow: 1 })
  expect(second?.cases[1]).toEqual({ code: 'C3', days: 0, weight: undefined })
})

// CDC/CSTE case definition 2020: 10 or more continuous days of the 14 before onset = presumptive (seen)
test.each([
  ['2026-01-01', 14, 'presumptive'],
  ['2026-02-05', 10, 'presumptive'],
  ['2026-02-06', 9, 'possible'],
])('[CAS8] a stay from %s to onset is %i days: %s', (from, days, link) => {
  const { cases } = derive('marram-house', [
    aCase('C1', '2026-02-15'),
    stay('C1', { place: 'x', from, to: '2026-02-14' }),
  ])
  expect(careLink(cases, 'C1')).toMatchObject({ days, link })
})
