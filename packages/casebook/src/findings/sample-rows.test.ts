import { describe, expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import { findCriteriaSet } from '../criteria/criteria-sets.ts'
import { below, collected, count, labelOf, make, reported, stateOf } from './findings.fixture.ts'
import { sampleRows } from './sample-rows.ts'

const rowsOf = (...entries: readonly Entry[]) => sampleRows(stateOf(...entries))

test('[FND1] a sample is joined with its place, readings, result and outcome', () => {
  const [row] = rowsOf(
    collected(1, { component: 'shower-A2' }),
    make('reading.taken', {
      round: 'R1',
      stop: 'stop shower-A2',
      quantity: 'hot-temperature',
      reading: { kind: 'value', value: 43.1, unit: 'Cel' },
    }),
    make('reading.taken', {
      round: 'R1',
      stop: 'stop shower-A2',
      quantity: 'total-chlorine',
      reading: { kind: 'value', value: 0.2, unit: 'mg/L' },
    }),
    reported(1, count(1200)),
  )
  expect(row).toMatchObject({
    label: labelOf(1),
    riser: 'A',
    floor: 2,
    zone: 'north',
    circuit: 'hot',
    medium: 'water',
    draw: 'flushed',
    temperatureC: 43.1,
    collectedOn: '2026-03-02',
    outcome: 'positive',
  })
  expect(row?.readings).toHaveLength(2)
})

describe('[FND1] the outcome of a sample', () => {
  test.each([
    ['no result yet', [], 'waiting'],
    ['culture positive', [reported(1, count(5))], 'positive'],
    ['below the limit', [reported(1, below)], 'negative'],
    ['overgrown is no negative', [reported(1, { kind: 'overgrown' })], 'not interpretable'],
    ['overgrown, then repeated', [reported(1, { kind: 'overgrown' }), reported(1, below)], 'negative'],
    ['half of a limit is no positive', [reported(1, { value: count(50), halfLimitSuspected: true })], 'negative'],
    [
      'PCR does not overrule culture',
      [reported(1, below), reported(1, { value: { kind: 'detected' }, method: 'PCR' })],
      'negative',
    ],
    ['PCR alone decides', [reported(1, { value: { kind: 'detected' }, method: 'PCR' })], 'positive'],
  ] as const)('%s', (_, results, want) => {
    expect(rowsOf(collected(1, { component: 'shower-A1' }), ...results)[0]?.outcome).toBe(want)
  })
})

describe('[FND5] a sample taken after a treatment is marked for ever', () => {
  const before = make('history.recorded', {
    on: '2026-02-20',
    what: 'disinfection',
    components: [],
    text: 'contractor chlorinated',
  })
  const local = make('history.recorded', {
    on: '2026-02-27',
    what: 'flushing',
    components: ['shower-B1'],
    text: 'flushed by staff',
  })
  const after = make('history.recorded', { on: '2026-03-09', what: 'disinfection', components: [], text: 'shock' })
  const works = make('history.recorded', { on: '2026-02-27', what: 'works', components: [], text: 'pump replaced' })
  const [a, b] = [collected(1, { component: 'shower-A1' }), collected(2, { component: 'shower-B1' })]

  test('the last treatment of that place counts, and treatments after the sample do not', () => {
    const rows = rowsOf(before, local, after, works, a, b)
    expect(rows.map(({ sinceTreatment }) => [sinceTreatment?.treatment.what, sinceTreatment?.days])).toEqual([
      ['disinfection', 10],
      ['flushing', 3],
    ])
  })
  test('a treatment of the same day counts as before the sample; of the day after, not', () => {
    const on = (day: string) => make('history.recorded', { on: day, what: 'flushing', components: [], text: 'flushed' })
    expect(rowsOf(on('2026-03-02'), a)[0]?.sinceTreatment?.days).toBe(0)
    expect(rowsOf(on('2026-03-03'), a)[0]?.sinceTreatment).toBeUndefined()
  })
  test('measures count from when they were carried out, at the outlets where they were', () => {
    const ordered = make('measure.ordered', {
      measure: 'shock chlorination',
      stage: 'remediation',
      where: 'riser A',
      components: ['shower-A1'],
      owner: 'facility',
    })
    const dropped = make('measure.ordered', {
      measure: 'heat disinfection',
      stage: 'remediation',
      where: 'all',
      components: [],
      owner: 'facility',
    })
    const completed = make('measure.completed', {
      measure: ordered.id,
      completedOn: '2026-03-01',
      outcome: 'carried out',
    })
    const given = make('measure.completed', {
      measure: dropped.id,
      completedOn: '2026-03-01',
      outcome: 'dropped',
      reason: 'not safe',
    })
    const rows = rowsOf(ordered, dropped, completed, given, a, b)
    expect(rows.map(({ sinceTreatment }) => sinceTreatment?.treatment.what)).toEqual(['shock chlorination', undefined])
  })
  test('a sample through a filter says so', () => {
    expect(rowsOf(collected(1, { component: 'shower-A1', filter: 'after filter' }))[0]?.afterFilter).toBe(true)
  })
})

test('[FND6] each result is judged by the chosen criteria set; a swab and a half-limit value never fall into a band', () => {
  const criteria = findCriteriaSet('de-trinkwv')
  if (criteria === undefined) throw new TypeError('no such set')
  const state = stateOf(
    collected(1, { component: 'shower-A1' }),
    collected(2, { component: 'shower-A1', sampleKind: 'first-flush-swab' }),
    collected(3, { component: 'shower-A2' }),
    reported(1, count(1200)),
    reported(2, count(1200)),
    reported(3, { value: count(50), halfLimitSuspected: true }),
  )
  const judged = sampleRows(state, criteria).map(({ results }) => results[0]?.judgement?.kind)
  expect(judged).toEqual(['band', 'not-applicable', 'not-applicable'])
})
