import { likelyExposure } from '@rillmark/casebook/cases/likely-exposure.ts'
import {
  below,
  collected,
  count,
  described,
  labelOf,
  make,
  reported,
  stateOf,
} from '@rillmark/casebook/findings/findings.fixture.ts'
import { positivity } from '@rillmark/casebook/findings/positivity.ts'
import { sampleRows } from '@rillmark/casebook/findings/sample-rows.ts'
import { expect, test } from 'vitest'
import { worked, wrongWith } from '../calculators/offers.fixture.ts'
import { findingsOffers } from './findings-offers.ts'

const isolate = (code: string, sequenceType: string) =>
  make('isolate.recorded', {
    code,
    from: { origin: 'sample', label: labelOf(1) },
    species: 'L. pneumophila',
    sequenceType,
  })
const state = stateOf(
  described,
  ...['2026-03-04', '2026-03-06', '2026-03-07'].map((onsetDate, at) =>
    make('case.recorded', {
      code: `MH-0${at + 1}`,
      classification: 'confirmed',
      onsetDate,
      link: 'not judged',
      isolate: 'not known',
    }),
  ),
  ...[1, 2, 3].map((number) => collected(number, {})),
  reported(1, { value: count(2000) }),
  reported(2, { value: below }),
  reported(3, { value: count(600) }),
  isolate('I-1', '23'),
  isolate('I-2', '23'),
  isolate('I-3', '1'),
)
const rows = sampleRows(state)

test('every offer is a calculation that takes what is filled in', () => {
  expect(wrongWith(findingsOffers(state, rows))).toEqual([])
  expect(wrongWith(findingsOffers(stateOf(described), []))).toEqual([])
})

test('the share worked in place is the share the screen shows', () => {
  const [shown] = positivity(rows, 'round').filter(({ medium }) => medium === 'water')
  expect(worked(findingsOffers(state, rows), 'proportion')).toMatchObject({
    estimate: shown?.estimate,
    interval: shown?.interval,
  })
})

test('the time of exposure worked in place is the time the cases screen shows', () => {
  const shown = likelyExposure(state.cases)
  expect(shown).toBeDefined()
  expect(worked(findingsOffers(state, rows), 'exposure-time')).toMatchObject({ mostLikelyDay: shown?.day })
})

test('isolates are counted by their type', () => {
  const offers = findingsOffers(state, rows)
  expect(offers.find(({ id }) => id === 'discrimination-index')?.start).toEqual({ counts: [2, 1] })
})
