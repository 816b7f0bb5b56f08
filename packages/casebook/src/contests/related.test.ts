import { expect, test } from 'vitest'
import { writer } from './contests.fixture.ts'
import type { Entry } from '../entry/entry.ts'
import { derive } from '../state/derive.ts'
import { relatedTo } from './related.ts'

const [desk, phone] = [writer('desk'), writer('phone')]

const related = (entry: Entry, accounts: readonly Entry[], record = accounts) =>
  relatedTo(entry, { accounts, record: derive('marram-house', record).record })

test('accounts with a rare word in common are related, in their order; one that nearly all have tells nothing', () => {
  const cases = Array.from({ length: 60 }, (_, n) => desk.aCase(`C${n}`, { seen: 0 }))
  const stay = desk.stay('C7', { seen: 0 })
  const note = desk.note('C7 was asked', { seen: 0 })
  const accounts = [...cases, stay, note]
  expect(related(phone.aCase('C7', { seen: 0 }), accounts)).toEqual([cases[7], stay])
  expect(related(phone.aCase('C99', { seen: 0 }), accounts)).toEqual([])
})

test('what corrects the same entry is related, whatever it says', () => {
  const first = desk.note('first', { seen: 0 })
  const gone = desk.make('entry.withdrawn', {}, { entry: first.id, reason: 'x' })
  const better = phone.make('note.written', { text: 'better', purpose: 'note' }, { entry: first.id, reason: 'x' })
  expect(related(better, [first, gone, desk.note('other', { seen: 0 })])).toContain(gone)
})

test('what was added to a record since, and accounts that are no entries of it, are found too', () => {
  const { record } = derive('marram-house', [desk.note('of something else', { seen: 0 })])
  const asked = phone.aCase('C7', { seen: 0 })
  expect(relatedTo(asked, { accounts: record.entries, record })).toEqual([])
  const stay = desk.stay('C7', { seen: 0 })
  record.entries.push(stay)
  const original = desk.aCase('C7', { seen: 0 })
  expect(relatedTo(asked, { accounts: [stay, original], record })).toEqual([stay, original])
})
