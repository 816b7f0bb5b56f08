import { expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import { entryNumbers } from '../report/entry-numbers.ts'
import { listEntries } from '../record/entry-list.ts'
import { derive, extend } from '../state/derive.ts'
import { testKey } from '../testing/test-key.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { emptyHead, linkEntries } from '../chain/link.ts'
import { entriesOf } from '../chain/entries-of.ts'
import { verifyChain } from '../chain/verify.ts'
import { checkSignature } from '../devices/signature.ts'
import { added, door, investigation, writer } from './contests.fixture.ts'

/** Desk and phone both record case C1, neither knowing of the other; the desk is first. */
function twoAccounts() {
  const [desk, phone] = [writer('desk'), writer('phone')]
  const at = door()
  const first = desk.aCase('C1', { seen: 0, notes: 'as the desk knows it' })
  const second = phone.aCase('C1', { seen: 0, notes: 'as the phone knows it' })
  const record: Entry[] = [...added(at.decide(first))]
  const decision = at.decide(second)
  record.push(...added(decision))
  return { desk, phone, at, first, second, record, decision }
}
const notes = (entries: readonly Entry[]) => derive(investigation, entries).cases.cases.get('C1')?.body.notes

test('[CON2] an entry that only the record speaks against, written without knowing what another device wrote, is kept as a second account', () => {
  const { decision, record, second, first } = twoAccounts()
  expect(decision).toMatchObject({ verdict: 'contested', id: second.id })
  expect(record.map(({ kind, device }) => `${kind} ${device}`)).toEqual([
    'case.recorded desk',
    'device.joined server',
    'entry.contested server',
  ])
  expect(record[2]?.body).toMatchObject({ entry: second, against: [first.id], issues: [{ path: 'body.code' }] })
  const links = linkEntries(emptyHead(investigation), { entries: record, received: '2026-03-02T12:00:00.000Z' })
  expect(verifyChain(links, { investigation, checkSignature })).toMatchObject({ sound: true, signed: 2, unsigned: 1 })
})

test.each([
  ['its writer had seen the other', (phone: ReturnType<typeof writer>) => phone.aCase('C1', { seen: 1 })],
  [
    'it does not say what its writer had seen',
    ({ aCase }: ReturnType<typeof writer>) => {
      const { seen: _, ...entry } = aCase('C1', { seen: 0 })
      return entry
    },
  ],
  ['its shape is wrong', ({ aCase }: ReturnType<typeof writer>) => ({ ...aCase('C1', { seen: 0 }), offset: 'x' })],
  ['nobody signs it rightly', ({ aCase }: ReturnType<typeof writer>) => testKey('x').sign(aCase('C1', { seen: 0 }))],
])('[CON2] an entry is refused, not contested, where %s', (_, make) => {
  const at = door()
  at.decide(writer('desk').aCase('C1', { seen: 0 }))
  expect(at.decide(make(writer('phone'))).verdict).toBe('refused')
  expect(at.state.contests.contested.size).toBe(0)
})

test('[CON2] what its own device wrote before is no other account', () => {
  const [phone, at] = [writer('phone'), door()]
  at.decide(phone.aCase('C1', { seen: 0 }))
  expect(at.decide(phone.aCase('C1', { seen: 0 })).verdict).toBe('refused')
})

test('[CON3] the same original arriving again is known, by the same door or after everything was read anew', () => {
  const { at, record, second } = twoAccounts()
  expect(at.decide(second)).toEqual({ verdict: 'known', id: second.id })
  const again = door(record)
  expect(again.decide(second)).toEqual({ verdict: 'known', id: second.id })
  const late = { ...writer('phone').note('x', { seen: 0 }), id: '00000000-0000-8000-8000-00000000aaaa' }
  expect(late.deviceSequence).toBe(second.deviceSequence)
  expect(again.decide(late)).toMatchObject({ verdict: 'refused', issues: [{ path: 'deviceSequence' }] })
})

test('[CON4] a second account counts for nothing until it is settled', () => {
  const { record, second } = twoAccounts()
  expect(notes(record)).toBe('as the desk knows it')
  const state = derive(investigation, record)
  expect(state.contests.contested.get(second.id)?.original).toEqual(second)
  expect(listEntries(state).map(({ standing }) => standing)).toEqual(['counts', 'counts', 'contested'])
})

test('[CON5] where the first stands nothing changes but that it is settled', () => {
  const { at, desk, record, second } = twoAccounts()
  record.push(...added(at.decide(desk.settled(second.id, 'first stands'))))
  expect(notes(record)).toBe('as the desk knows it')
  expect(at.decide(desk.settled(second.id, 'second stands')).verdict).toBe('refused')
  expect(listEntries(at.state).map(({ standing }) => standing)).toEqual(['counts', 'counts', 'counts', 'counts'])
})

test('[CON6] where the second stands it counts from there on, and what it contradicted no more; both stay', () => {
  const { at, desk, phone, record, first, second } = twoAccounts()
  const settled = desk.settled(second.id, 'second stands')
  record.push(...added(at.decide(settled)))
  expect(notes(record)).toBe('as the phone knows it')
  expect(at.state.record.entries.map(({ id }) => id)).toEqual(record.map(({ id }) => id))
  expect(listEntries(at.state).map(({ standing }) => standing)).toEqual(['set aside', 'counts', 'counts', 'counts'])
  expect(entryNumbers(at.state.record).of({ id: second.id })).toEqual([3])
  // it can be amended like any other, and what was set aside can't
  const amended = phone.make(
    'case.recorded',
    { ...second.body, notes: 'said better' },
    { entry: second.id, reason: 'x' },
  )
  record.push(...added(at.decide(amended)))
  expect(notes(record)).toBe('said better')
  const late = desk.make('case.recorded', first.body, { entry: first.id, reason: 'x' })
  expect(at.decide(late)).toMatchObject({ verdict: 'refused', issues: [{ path: 'corrects.entry' }] })
})

test('[CON6] a settlement set right, or withdrawn, counts as it stands last', () => {
  const { at, desk, record, second } = twoAccounts()
  const settled = desk.settled(second.id, 'second stands')
  const otherwise = desk.make(
    'contest.settled',
    { ...settled.body, decision: 'first stands' },
    { entry: settled.id, reason: 'the photo shows it' },
  )
  const withdrawn = desk.make('entry.withdrawn', {}, { entry: settled.id, reason: 'too early' })
  for (const [entry, want] of [
    [settled, 'as the phone knows it'],
    [otherwise, 'as the desk knows it'],
    [withdrawn, 'as the desk knows it'],
  ] as const) {
    record.push(...added(at.decide(entry)))
    expect(notes(record)).toBe(want)
  }
  expect(at.state.contests.settled.size).toBe(0)
  expect(at.decide(desk.settled(second.id, 'second stands')).verdict).toBe('accepted')
})

test('[CON7] a second account the record would still speak against does not stand, whoever decides', () => {
  const { at, desk, phone, second } = twoAccounts()
  const third = writer('tablet').aCase('C1', { seen: 0, notes: 'as the tablet knows it' })
  expect(at.decide(third)).toMatchObject({ verdict: 'contested' })
  expect(at.decide(desk.settled(second.id, 'second stands')).verdict).toBe('accepted')
  expect(at.decide(phone.settled(third.id, 'second stands'))).toMatchObject({
    verdict: 'refused',
    issues: [{ path: 'body.contested body.code' }],
  })
  expect(at.decide(phone.settled(third.id, 'first stands')).verdict).toBe('accepted')
})

test('[CON2] what a device wrote on top of its contested entry is contested with it, and can stand after it', () => {
  const { at, desk, phone, second } = twoAccounts()
  const withdrawn = desk.make('entry.withdrawn', {}, { entry: at.state.record.entries[0]?.id ?? '', reason: 'x' })
  at.decide({ ...withdrawn, seen: 3 })
  // the phone still knows of nothing: its stay belongs to its own C1, which counts for nothing yet
  const stay = phone.stay('C1', { seen: 0 })
  expect(at.decide(stay)).toMatchObject({ verdict: 'contested' })
  expect(at.decide(desk.settled(stay.id, 'second stands')).verdict).toBe('refused')
  expect(at.decide(desk.settled(second.id, 'second stands')).verdict).toBe('accepted')
  expect(at.decide(desk.settled(stay.id, 'second stands')).verdict).toBe('accepted')
  expect(at.state.cases.exposures).toHaveLength(1)
})

test('[CON2] an amendment of what another device withdrew meanwhile is a second account; if it stands the withdrawal does not', () => {
  const [desk, phone, at] = [writer('desk'), writer('phone'), door()]
  const first = desk.aCase('C1', { seen: 0, notes: 'old' })
  at.decide(first)
  const gone = { ...desk.make('entry.withdrawn', {}, { entry: first.id, reason: 'no case' }), seen: 1 }
  at.decide(gone)
  const amended = phone.make('case.recorded', { ...first.body, notes: 'new' }, { entry: first.id, reason: 'x' })
  const decision = at.decide({ ...amended, seen: 1 })
  expect(decision).toMatchObject({ verdict: 'contested' })
  expect(added(decision).at(-1)?.body).toMatchObject({ against: [gone.id] })
  expect(at.state.cases.cases.size).toBe(0)
  at.decide(phone.settled(amended.id, 'second stands'))
  expect(at.state.cases.cases.get('C1')?.body.notes).toBe('new')
})

test('[CON2] among hundreds of entries that were not seen, the one it contradicts is found', () => {
  const [desk, phone, at] = [writer('desk'), writer('phone'), door()]
  for (let n = 0; n < 150; n += 1) at.decide(desk.note(`note ${n}`, { seen: n }))
  const first = desk.aCase('C1', { seen: 150 })
  at.decide(first)
  for (let n = 0; n < 150; n += 1) at.decide(desk.note(`later ${n}`, { seen: n }))
  const decision = at.decide(phone.aCase('C1', { seen: 0 }))
  expect(added(decision).at(-1)?.body).toMatchObject({ against: [first.id] })
})

test('[REC5] extending entry by entry, with contests and settlements, gives what deriving whole gives', () => {
  const { at, desk, phone, record, second } = twoAccounts()
  const third = writer('tablet').aCase('C1', { seen: 1 })
  const settled = desk.settled(second.id, 'second stands')
  for (const entry of [
    third,
    phone.note('meanwhile', { seen: 2 }),
    settled,
    phone.stay('C1', { seen: 5 }),
    desk.make('entry.withdrawn', {}, { entry: second.id, reason: 'neither' }),
  ])
    record.push(...added(at.decide(entry)))
  let grown = derive(investigation, [])
  for (const [index, entry] of record.entries()) {
    grown = extend(grown, [entry])
    expect(grown, `after ${index + 1}`).toEqual(derive(investigation, record.slice(0, index + 1)))
  }
  expect(at.state).toEqual(derive(investigation, record))
})

test('[CON4] only a person settles: not a reader, a laboratory or the server', () => {
  const { record, second } = twoAccounts()
  for (const role of ['reader', 'laboratory'] as const) {
    const device = writer(role)
    const joined = device.make('device.joined', { name: role, role, key: testKey(role).key })
    const checked = checkEntry(derive(investigation, [...record, joined]), device.settled(second.id, 'first stands'))
    expect(checked).toMatchObject({ ok: false, by: 'writer' })
  }
  expect(checkEntry(derive(investigation, record), writer('server').settled(second.id, 'first stands'))).toMatchObject({
    ok: false,
    by: 'writer',
  })
})

test('[CON1] the times of a contested entry are read by the right clock, and it is kept as it was written', () => {
  const [desk, phone, at, key] = [writer('desk'), writer('phone'), door(), testKey('phone')]
  const record = [...added(at.decide(desk.aCase('C1', { seen: 0 })))]
  const joined = phone.make('device.joined', { name: 'Phone', role: 'lead', key: key.key })
  record.push(...added(at.decide(key.sign(joined))))
  const second = key.sign(phone.aCase('C1', { seen: 0 }))
  record.push(...added(at.decide(second, { clockAheadS: 3600 })))
  const links = linkEntries(emptyHead(investigation), { entries: record, received: '2026-03-02T12:00:00.000Z' })
  expect(verifyChain(links, { investigation, checkSignature })).toMatchObject({ sound: true, signed: 3, unsigned: 1 })
  const contest = derive(investigation, entriesOf(links)).contests.contested.get(second.id)
  expect(contest?.original.instant).toBe(new Date(Date.parse(second.instant) - 3_600_000).toISOString())
  expect(contest?.original).toEqual(at.state.contests.contested.get(second.id)?.original)
})
