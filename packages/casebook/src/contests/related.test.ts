import { expect, test } from 'vitest'
import { writer } from './contests.fixture.ts'
import { relatedTo } from './related.ts'

const [desk, phone] = [writer('desk'), writer('phone')]

test('accounts with a rare word in common are related, in their order; one that nearly all have tells nothing', () => {
  const cases = Array.from({ length: 60 }, (_, n) => desk.aCase(`C${n}`, { seen: 0 }))
  const stay = desk.stay('C7', { seen: 0 })
  const note = desk.note('C7 was asked', { seen: 0 })
  const accounts = [...cases, stay, note]
  expect(relatedTo(phone.aCase('C7', { seen: 0 }), accounts)).toEqual([cases[7], stay])
  expect(relatedTo(phone.aCase('C99', { seen: 0 }), accounts)).toEqual([])
})

test('what corrects the same entry is related, whatever it says', () => {
  const first = desk.note('first', { seen: 0 })
  const gone = desk.make('entry.withdrawn', {}, { entry: first.id, reason: 'x' })
  const better = phone.make('note.written', { text: 'better', purpose: 'note' }, { entry: first.id, reason: 'x' })
  expect(relatedTo(better, [first, gone, desk.note('other', { seen: 0 })])).toContain(gone)
})
