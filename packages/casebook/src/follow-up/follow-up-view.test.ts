import { describe, expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import { isOutlet } from '../building/water-system.ts'
import type { Entry } from '../entry/entry.ts'
import { derive } from '../state/derive.ts'
import { count, NEGATIVE, roundWriter } from './follow-up.fixture.ts'
import { followUpView } from './follow-up-view.ts'

const write = roundWriter()
const view = (entries: Entry[], today: string) => followUpView(derive('marram-house', entries), today)

test('[FUP5] rounds are set out from the remediation and filled by the rounds taken after it', () => {
  const entries = [
    write.adopted('R1', 'initial'),
    write.sample({ date: '2026-01-10', round: 'R1', label: 'A' }),
    write.result('A', count(20)),
    write.started('2026-01-31'),
    ...write.round('2026-02-14', { code: 'R2', value: NEGATIVE }),
    ...write.round('2026-02-28', { code: 'R3' }),
  ]
  const { schedule, next, outcomes } = view(entries, '2026-03-05')
  expect(schedule).toMatchObject({ state: 'waiting', countsFrom: '2026-01-31', restarts: [], notCounted: [] })
  expect(schedule?.rounds.slice(0, 3).map(({ state }) => state)).toEqual(['negative', 'sampled', 'waiting'])
  expect(next).toMatchObject({ number: 3, dueOn: '2026-03-14' })
  expect(outcomes.map(({ round, outcome }) => `${round} ${outcome}`)).toEqual([
    'R1 positive',
    'R2 negative',
    'R3 pending',
  ])
})

test('[FUP14] a round of which points are open fills none: the round of the rule stays due, and is late after its last day', () => {
  const finished = write.on('2026-02-18')('stop.finished', {
    round: 'R2',
    stop: 'L2',
    outcome: 'not possible',
    reason: 'locked',
  })
  const entries = [
    write.started('2026-01-31'),
    write.planned('R2', ['L1', 'L2']),
    write.sample({ date: '2026-02-18', round: 'R2', label: 'L1' }),
  ]
  const open = view(entries, '2026-02-18')
  expect(open.outcomes[0]).toMatchObject({ outcome: 'begun', collectedOn: '2026-02-18' })
  expect(open.next).toMatchObject({ number: 1, latestOn: '2026-02-17', state: 'late' })
  // done after its last day it is the first round, late, and shortens nothing: the next waits for the gap
  const done = view([...entries, finished], '2026-02-19')
  expect(done.schedule?.rounds[0]).toMatchObject({
    collectedOn: '2026-02-18',
    latestOn: '2026-02-17',
    state: 'sampled',
  })
  expect(done.next).toMatchObject({ number: 2, dueOn: '2026-02-28' })
})

test('[FUP6] a positive starts the clock again, and so does starting again after new remediation', () => {
  const entries = [
    write.started('2026-01-31'),
    ...write.round('2026-02-14', { code: 'R2', value: NEGATIVE }),
    ...write.round('2026-02-28', { code: 'R3', value: count(2) }),
  ]
  expect(view(entries, '2026-03-01').schedule).toMatchObject({
    state: 'restarted',
    countsFrom: '2026-02-28',
    restarts: [{ on: '2026-02-28', reason: 'positive in the sampling of 2026-02-28' }],
  })
  const again = view([...entries, write.started('2026-03-10')], '2026-03-11')
  expect(again.firstFrom).toBe('2026-01-31')
  expect(again.schedule?.restarts.map(({ on }) => on)).toEqual(['2026-02-28', '2026-03-10'])
  expect(again.next).toMatchObject({ number: 1, dueOn: '2026-03-24' })
})

test('[FUP6] a start with an earlier day, written to set one right, takes its place', () => {
  const { schedule } = view([write.started('2026-02-10'), write.started('2026-02-03', '2026-02-11')], '2026-02-12')
  expect(schedule).toMatchObject({ countsFrom: '2026-02-03', restarts: [] })
})

test('[FUP7] remediation completed since the clock started is shown, not counted in silence', () => {
  const ordered = write.on('2026-02-01')('measure.ordered', {
    measure: 'heat disinfection',
    stage: 'remediation',
    where: 'riser C',
    components: [],
    owner: 'Facility',
  })
  const completed = write.on('2026-02-20')('measure.completed', {
    measure: ordered.id,
    completedOn: '2026-02-20',
    outcome: 'carried out',
  })
  const { schedule, remediatedSince } = view([write.started('2026-01-31'), ordered, completed], '2026-02-21')
  expect(schedule?.countsFrom).toBe('2026-01-31')
  expect(remediatedSince).toEqual([{ on: '2026-02-20', what: 'heat disinfection, riser C' }])
})

describe('what could be missed', () => {
  const system = buildSystem(marramHouse)
  const outlets = system.components.filter(isOutlet).map(({ id }) => id)
  const described = write.on('2026-01-02')('building.described', { source: 'quick description', system })

  test('[FUP8] is said of the outlets sampled at least once since the clock started', () => {
    const at = (round: string, date: string, components: readonly string[]): Entry[] => [
      write.adopted(round),
      ...components.flatMap((component, index) => {
        const label = `${round}-${index}`
        return [write.sample({ date, round, label, component }), write.result(label, NEGATIVE)]
      }),
    ]
    const entries = [
      described,
      write.started('2026-01-31'),
      ...at('R2', '2026-02-14', outlets.slice(0, 10)),
      ...at('R3', '2026-02-28', outlets.slice(5, 20)),
    ]
    const missed = view(entries, '2026-03-01').couldMiss
    expect(missed).toMatchObject({ outlets: outlets.length, sampled: 20 })
    // the more outlets were seen, the fewer can hide; never none while some were not seen
    const one = view(entries.slice(0, -31), '2026-03-01').couldMiss
    expect(one?.sampled).toBe(10)
    expect(missed?.upperNumber).toBeLessThan(one?.upperNumber ?? 0)
    expect(missed?.upperNumber).toBeGreaterThan(0)
  })
})

describe('after closing', () => {
  const closed = write.on('2026-09-01')('follow-up.closed', {
    closedOn: '2026-09-01',
    ruleMet: false,
    overrideReason: 'building demolished',
  })
  const base = [...write.round('2026-08-01', { code: 'R2' }), closed]
  const because = (...entries: Entry[]): readonly string[] => view([...base, ...entries], '2026-09-20').reopenBecause

  test('[FUP9] a case or a positive that comes after closing asks whether to reopen', () => {
    const recorded = write.on('2026-09-10')('case.recorded', {
      code: 'C9',
      classification: 'suspected',
      link: 'not judged',
      isolate: 'not known',
    })
    expect(because()).toEqual([])
    expect(because(recorded)).toEqual(['case C9 was recorded after closing'])
    expect(because(write.result('L-R2', count(1), { date: '2026-09-12' }))).toEqual([
      'L-R2 was reported positive on 2026-09-12, after closing',
    ])
    expect(because(write.result('L-R2', NEGATIVE, { date: '2026-09-12' }))).toEqual([])
  })

  test('[FUP9] what was known before closing does not', () => {
    const early = write.result('L-R2', count(1), { date: '2026-08-20' })
    expect(view([...base.slice(0, -1), early, closed], '2026-09-20').reopenBecause).toEqual([])
  })
})
