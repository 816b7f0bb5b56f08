import { below, collected, count, described, reported, stateOf } from '@rillmark/casebook/findings/findings.fixture.ts'
import { expect, test } from 'vitest'
import { worked, wrongWith } from '../calculators/offers.fixture.ts'
import { resultsOffers } from './results-offers.ts'

const state = stateOf(
  described,
  ...[1, 2, 3].map((number) => collected(number, {})),
  reported(1, { value: count(2000) }),
  reported(2, { value: below }),
  reported(3, { value: count(600) }),
)

test('every offer is a calculation that takes what is filled in', () => {
  expect(wrongWith(resultsOffers(state))).toEqual([])
  expect(wrongWith(resultsOffers(stateOf(described)))).toEqual([])
})

test('the counts in are summarised as they are, those below a limit as such', () => {
  const offers = resultsOffers(state)
  expect(offers.find(({ id }) => id === 'censored-summary')?.start).toEqual({ values: [2000, { below: 100 }, 600] })
  expect(worked(offers, 'censored-summary')).toMatchObject({ readings: 3, censored: 1, leftOut: [] })
})
