import { marramHouse } from '@rillmark/casebook/building/marram-house.fixture.ts'
import { expect, test } from 'vitest'
import { emptyQuick, quickDraftOf, quickFrom, quickSoFar, risersOf } from './quick-draft.ts'

test('a description goes into the form and comes out the same', () => {
  const { plant: _, ...given } = marramHouse
  const back = quickFrom(quickDraftOf(given))
  expect(back.ok ? back.value : back.issues).toEqual(given)
  const below = {
    ...given,
    floors: { count: 4, first: -1 },
    coldTank: { volumeL: 2000 },
    plant: { position: 'roof' } as const,
  }
  const again = quickFrom(quickDraftOf(below))
  expect(again.ok ? again.value : again.issues).toEqual(below)
})

test('what is not answered is asked for, all at once, and nothing is assumed to be told', () => {
  const read = quickFrom(emptyQuick(''))
  const paths = read.ok ? [] : read.issues.map(({ path }) => path)
  expect(paths).toEqual(['name', 'floors', 'risers', 'recirculation', 'mixing', 'supply.disinfectant'])
})

test('it is drawn as soon as there is a floor and a riser', () => {
  const draft = emptyQuick('')
  expect(quickSoFar(draft)).toBeUndefined()
  expect(quickSoFar({ ...draft, floors: '3', risers: 'A, B' })).toMatchObject({ floors: 3, risers: ['A', 'B'] })
  expect(quickSoFar({ ...draft, floors: 'three', risers: '2' })).toBeUndefined()
})

test.each([
  ['4', 4],
  ['A, B;East ', ['A', 'B', 'East']],
  ['', undefined],
  ['-1', ['-1']],
])('risers are a count or names: %s', (typed, want) => expect(risersOf(typed)).toEqual(want))
