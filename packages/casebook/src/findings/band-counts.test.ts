import { expect, test } from 'vitest'
import { findCriteriaSet } from '../criteria/criteria-sets.ts'
import { bandCounts } from './band-counts.ts'
import { below, collected, count, labelOf, make, reported, stateOf } from './findings.fixture.ts'
import { focusRows, placesOf } from './focus-rows.ts'
import { readingLayer } from './reading-layer.ts'
import { sampleRows } from './sample-rows.ts'
import { visitLayer } from './visit-layer.ts'
import { US_UNITS } from '../units/display-units.ts'

const state = stateOf(
  collected(1, { component: 'shower-A1' }),
  collected(2, { component: 'shower-A2' }),
  collected(3, { component: 'shower-A3', sampleKind: 'first-flush-swab' }),
  collected(4, { component: 'shower-B1' }),
  reported(1, count(15_000)),
  reported(2, below),
  reported(3, { kind: 'detected' }),
  reported(4, { kind: 'overgrown' }),
  make('reading.taken', {
    round: 'R1',
    stop: 'stop shower-A1',
    component: 'shower-A1',
    quantity: 'hot-temperature',
    reading: { kind: 'value', value: 43.1, unit: 'Cel' },
  }),
  make('reading.taken', {
    round: 'R1',
    stop: 'stop shower-A1',
    component: 'shower-A1',
    quantity: 'total-chlorine',
    reading: { kind: 'below', limit: 0.1, unit: 'mg/L' },
  }),
)

test('[FND6] each result stands in one band of the set, or is told apart with the reason; none is lost', () => {
  const set = findCriteriaSet('us-cdc')
  if (set === undefined) throw new TypeError('no such set')
  const counts = bandCounts(sampleRows(state, set), set)
  const banded = counts.bands.flatMap(({ labels }) => labels)
  // US CDC toolkit figure: 10 CFU/mL or more is uncontrolled (seen); 15,000 CFU/L are 15 CFU/mL
  expect(counts.bands.at(-1)?.labels).toEqual([labelOf(1)])
  const apart = [...counts.undecided, ...counts.outside]
  expect(apart.find(({ reason }) => reason.includes('swab'))?.labels).toEqual([labelOf(3)])
  expect(apart.find(({ reason }) => reason.includes('overgrown'))?.labels).toEqual([labelOf(4)])
  expect([...banded, ...apart.flatMap(({ labels }) => labels)].sort()).toEqual([1, 2, 3, 4].map(labelOf))
})

test('[FND10] readings are shown at their place with the temperature in figures and everything else in words', () => {
  const [mark, ...others] = readingLayer(state).marks
  expect(others).toEqual([])
  expect(mark).toMatchObject({ component: 'shower-A1', text: '43.1' })
  expect(mark?.label).toBe('hot 43.1 °C, total chlorine below 0.1 mg/L')
  expect(readingLayer(state, US_UNITS).marks[0]).toMatchObject({
    text: '109.6',
    label: 'hot 109.6 °F, total chlorine below 0.1 mg/L',
  })
})

test('[FND10] without a plan there is nothing planned to show', () => {
  expect(visitLayer(state).marks).toEqual([])
})

test('[FND10] what is looked at lights up its places', () => {
  const rows = sampleRows(state)
  const samples = focusRows(rows, { kind: 'samples', words: 'two', labels: [labelOf(1), labelOf(4)] })
  expect([...placesOf(samples)]).toEqual(['shower-A1', 'shower-B1'])
  const place = focusRows(rows, { kind: 'place', component: 'shower-A2', words: 'A2' })
  expect(place.map(({ label }) => label)).toEqual([labelOf(2)])
  expect(focusRows(rows, undefined)).toBe(rows)
})
