import { expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import { derive } from '../state/derive.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { investigation, writer } from './contests.fixture.ts'
import { disagreements } from './disagreements.ts'

const [desk, phone] = [writer('desk'), writer('phone')]
const found = (entries: readonly Entry[]) =>
  disagreements(derive(investigation, entries)).map(({ about, first, second }) => [about, first.id, second.id])

test('[CON8] two readings of the same water by two devices that did not know of each other differ, and are shown', () => {
  const [a, b] = [desk.reading(52, { seen: 0 }), phone.reading(49.5, { seen: 0 })]
  expect(found([a, b])).toEqual([['reading', a.id, b.id]])
})

test('[CON8] two outcomes of one stop by two devices are shown', () => {
  const [a, b] = [desk.finished('sampled', { seen: 0 }), phone.finished('partly', { seen: 0 })]
  expect(found([a, b])).toEqual([['outcome', a.id, b.id]])
})

test.each([
  ['they say the same', [desk.reading(52, { seen: 0 }), phone.reading(52, { seen: 0 })]],
  ['it is other water', [desk.reading(52, { seen: 0 }), phone.reading(12, { seen: 0, circuit: 'cold' })]],
  ['one device took both', [desk.reading(52, { seen: 0 }), desk.reading(49, { seen: 0 })]],
  ['the later one was taken knowing of the first', [desk.reading(52, { seen: 0 }), phone.reading(49, { seen: 1 })]],
])('[CON8] nothing is shown where %s', (_, entries) => {
  expect(found(entries)).toEqual([])
})

test('[CON9] a person settles them: one stands, or both, with a reason; once', () => {
  const [a, b] = [desk.reading(52, { seen: 0 }), phone.reading(49.5, { seen: 0 })]
  const settled = (decision: 'first stands' | 'second stands' | 'both stand') =>
    desk.make('contest.settled', { contested: b.id, against: a.id, decision, reason: 'the second probe was wet' })
  const values = (entries: readonly Entry[]) =>
    derive(investigation, entries).fieldwork.readings.map(({ id }) => (id === a.id ? 'first' : 'second'))
  for (const [decision, want] of [
    ['first stands', ['first']],
    ['second stands', ['second']],
    ['both stand', ['first', 'second']],
  ] as const) {
    const record = [a, b, settled(decision)]
    expect(checkEntry(derive(investigation, [a, b]), settled(decision))).toMatchObject({ ok: true })
    expect(values(record)).toEqual(want)
    expect(found(record)).toEqual([])
    expect(checkEntry(derive(investigation, record), settled(decision))).toMatchObject({
      ok: false,
      issues: [{ path: 'body.contested' }],
    })
  }
})

test('[CON9] what differs from nothing is not settled', () => {
  const [a, b] = [desk.reading(52, { seen: 0 }), phone.reading(52, { seen: 0 })]
  for (const body of [
    { contested: b.id, against: a.id },
    { contested: b.id },
    { contested: crypto.randomUUID(), against: a.id },
  ]) {
    const settled = desk.make('contest.settled', { ...body, decision: 'first stands', reason: 'x' })
    expect(checkEntry(derive(investigation, [a, b]), settled)).toMatchObject({
      ok: false,
      issues: [{ path: 'body.contested' }],
    })
  }
})
