import { expect, test } from 'vitest'
import { threeCases } from '../testing/three-cases.ts'
import { sharedPlaces } from './shared-places.ts'

test('[CAS7] places touched by most windows come first; a stay counts once a day and only inside the window', () => {
  const [first, second] = sharedPlaces(threeCases)
  expect(first).toMatchObject({ place: 'North wing', inWindow: 2 })
  expect(first?.cases.map(({ code, days }) => [code, days])).toEqual([
    ['C1', 15],
    ['C2', 3],
  ])
  expect(second).toMatchObject({ place: 'Spa', inWindow: 1 })
  expect(second?.cases[1]).toEqual({ code: 'C3', days: 0, weight: undefined })
})
