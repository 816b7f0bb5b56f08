import { expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import { FINE_KIT, fieldDesk, LABELS, SHOWER, THERMOMETER } from '../fieldwork/visit.fixture.ts'

import { added, door, writer } from './contests.fixture.ts'
import { disagreements } from './disagreements.ts'
import { openAccounts } from './open-accounts.ts'
import { filterEntries, listEntries } from '../record/entry-list.ts'
import { countsNoMore, settlementsOf, toldTwice } from './told-twice.ts'

const [swab = '', bulk = ''] = LABELS

/** A record with a plan and instruments, and two phones that hold it and then lose the network. */
function twoPhones() {
  const desk = fieldDesk()
  for (const instrument of [THERMOMETER, FINE_KIT]) desk.write('instrument.registered', instrument)
  const base = [...desk.state.record.entries]
  const at = door(base)
  const phone = (device: string) => {
    const { make, settled } = writer(device)
    const write = <K extends Kind>(kind: K, body: BodyOf<K>): Entry =>
      ({ ...make(kind, body), seen: base.length }) as unknown as Entry
    return { write, settled }
  }
  return { at, anna: phone('anna'), bert: phone('bert'), seen: base.length }
}

/** All of the shower's stop, in order, as one device writes it. */
function wholeVisit(
  { write }: ReturnType<typeof twoPhones>['anna'],
  { hot, chlorine }: Record<'hot' | 'chlorine', number>,
) {
  const sample = (label: string, sampleKind: 'first-flush-swab' | 'bulk-hot'): Entry =>
    write('sample.collected', { ...SHOWER, label, sampleKind, filter: 'none' })
  const celsius = (quantity: 'hot-temperature' | 'cold-temperature', value: number): Entry =>
    write('reading.taken', { ...SHOWER, quantity, reading: { kind: 'value', value, unit: 'Cel' }, instrument: 'T1' })
  return {
    started: write('stop.started', SHOWER),
    swab: sample(swab, 'first-flush-swab'),
    run: write('step.done', { ...SHOWER, procedure: 'shower', step: 'run' }),
    bulk: sample(bulk, 'bulk-hot'),
    chlorine: write('reading.taken', {
      ...SHOWER,
      quantity: 'total-chlorine',
      reading: { kind: 'value', value: chlorine, unit: 'mg/L' },
      instrument: 'K1',
    }),
    cold: celsius('cold-temperature', 12),
    hot: celsius('hot-temperature', hot),
    finished: write('stop.finished', { ...SHOWER, outcome: 'sampled' }),
  }
}

function bothVisited() {
  const phones = twoPhones()
  const [first, second] = [
    wholeVisit(phones.anna, { hot: 51.5, chlorine: 0.8 }),
    wholeVisit(phones.bert, { hot: 48.2, chlorine: 0.4 }),
  ]
  const record = [...Object.values(first), ...Object.values(second)].flatMap((entry) => added(phones.at.decide(entry)))
  return { ...phones, first, second, record }
}

test('[CON11] after two whole visits of one stop the second can stand: what its writer did later is not held against it', () => {
  const { at, bert, first, second } = bothVisited()
  expect([...at.state.contests.contested.keys()]).toEqual([second.swab.id, second.bulk.id])
  for (const sample of [second.swab, second.bulk])
    expect(at.decide(bert.settled(sample.id, 'second stands'))).toMatchObject({ verdict: 'accepted' })
  const visit = at.state.fieldwork.visits.get('R1/S1')
  expect(visit?.samples.map(({ id, device }) => `${device} ${id}`)).toEqual([
    `bert ${second.swab.id}`,
    `bert ${second.bulk.id}`,
  ])
  expect(at.state.fieldwork.samples.get(swab)?.device).toBe('bert')
  // only what the contests name is set aside; what stands beside still differs and waits
  const aside = [...at.state.record.setAside.keys()]
  const named = [...at.state.contests.contested.values()].flatMap(({ against }) => against)
  expect(new Set(aside)).toEqual(new Set(named))
  expect(aside).not.toContain(first.started.id)
  for (const { first: one } of disagreements(at.state)) expect(aside).not.toContain(one.id)
})

test('[CON11] what its own device did before, and what others did unknown to it, is still held against it', () => {
  const { at, anna, bert } = twoPhones()
  const one = wholeVisit(anna, { hot: 51.5, chlorine: 0.8 })
  for (const entry of Object.values(one)) at.decide(entry)
  // the second ran the water first, and then took what it calls a first flush
  const ran = bert.write('step.done', { ...SHOWER, procedure: 'shower', step: 'run' })
  const late = bert.write('sample.collected', {
    ...SHOWER,
    label: swab,
    sampleKind: 'first-flush-swab',
    filter: 'none',
  })
  at.decide(ran)
  expect(at.decide(late).verdict).toBe('contested')
  const decided = at.decide(bert.settled(late.id, 'second stands'))
  const paths = decided.verdict === 'refused' ? decided.issues.map(({ path }) => path) : []
  expect(paths).toContain('body.contested body.sampleKind')
})

test('[CON11] what was written in knowledge of the second came after it', () => {
  const { at, anna, bert, second } = bothVisited()
  const seen = at.state.record.entries.length
  const reading = { kind: 'value', value: 0.6, unit: 'mg/L' } as const
  const again = anna.write('reading.taken', { ...SHOWER, quantity: 'total-chlorine', reading, instrument: 'K1' })
  expect(at.decide({ ...again, seen }).verdict).toBe('accepted')
  expect(at.decide(bert.settled(second.swab.id, 'second stands')).verdict).toBe('accepted')
})

test('[CON10] accounts name their stop by its title', () => {
  const { at } = bothVisited()
  const [swabs] = openAccounts(at.state)
  expect(swabs?.second.words).toBe(`${swab} at R1, Room 304, shower, first flush + biofilm swab`)
  expect(swabs?.place).toBe('Room 304, shower')
  expect(swabs?.issues[0]?.received).toBe(`${swab}, collected at Room 304, shower, R1`)
})

test('[CON12] the accounts of one visit by the same two devices are settled together, the second whole or the first', () => {
  for (const decision of ['second stands', 'first stands'] as const) {
    const { at, anna, first, second } = bothVisited()
    const [visit, ...others] = toldTwice(openAccounts(at.state))
    expect(others).toEqual([])
    // both samples are contested; the readings that differ went in
    expect(visit?.pairs.map(({ standing }) => standing)).toEqual(['contested', 'contested', 'differ', 'differ'])
    const told = countsNoMore(visit?.pairs ?? [], decision).map(({ id }) => id)
    const bodies = settlementsOf(visit?.pairs ?? [], { decision, reason: 'asked both' })
    for (const body of bodies) expect(at.decide(anna.write('contest.settled', body)).verdict).toBe('accepted')
    // it set aside what it said, no more and no less, and nothing waits
    expect([...at.state.record.setAside.keys()].toSorted()).toEqual(told.toSorted())
    expect(openAccounts(at.state)).toEqual([])
    const kept = decision === 'second stands' ? second : first
    const there = at.state.fieldwork.visits.get('R1/S1')
    expect(there?.samples.map(({ id }) => id)).toEqual([kept.swab.id, kept.bulk.id])
    expect(there?.readings.map(({ body }) => body.reading)).toEqual(
      expect.arrayContaining([kept.chlorine, kept.hot].map(({ body }) => (body as BodyOf<'reading.taken'>).reading)),
    )
  }
})

test('[CON12] what is about no stop, or contradicts several devices, is settled alone', () => {
  const { at } = bothVisited()
  const [swabs, bulks] = openAccounts(at.state)
  if (swabs === undefined || bulks === undefined) throw new TypeError('Cannot go on without accounts')
  const { at: _, ...nowhere } = bulks
  const several = { ...bulks, first: [...bulks.first, { ...bulks.second, deviceId: 'a third' }] }
  expect(toldTwice([swabs, nowhere])).toHaveLength(2)
  expect(toldTwice([swabs, several])).toHaveLength(2)
  expect(toldTwice([swabs, bulks])).toHaveLength(1)
})

test('[REC21] entries of a stop are found by its title', () => {
  const { at, first, second } = bothVisited()
  const found = filterEntries(listEntries(at.state), { text: 'room 304 chlorine' })
  expect(found.map(({ entry }) => entry.id)).toEqual([second.chlorine.id, first.chlorine.id])
})
