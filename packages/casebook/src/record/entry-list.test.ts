import { expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { filterEntries, findListed, listEntries } from './entry-list.ts'

const { make } = entryMaker('marram-house')
const note = make('note.written', { text: 'Roof tank has no lid', purpose: 'note' })
const c1 = make('case.recorded', { code: 'C1', classification: 'probable', link: 'not judged', isolate: 'not known' })
const c1b = make(
  'case.recorded',
  { ...c1.body, classification: 'confirmed' },
  { entry: c1.id, reason: 'culture came in' },
)
const c2 = make('case.recorded', { ...c1.body, code: 'C2' })
const gone = make('entry.withdrawn', {}, { entry: c2.id, reason: 'belongs to another house' })
const other = { ...make('note.written', { text: 'Lift shaft warm', purpose: 'note' }), author: 'T. Marsh' }
const listed = listEntries(derive('marram-house', [note, c1, c1b, c2, gone, other]))

test('[REC20] the list holds every entry under its number with how it stands, and none is left out', () => {
  expect(listed.map(({ number, standing, corrects }) => [number, standing, corrects])).toEqual([
    [1, 'counts', undefined],
    [2, 'amended', undefined],
    [3, 'amendment', 2],
    [4, 'withdrawn', undefined],
    [5, 'withdrawal', 4],
    [6, 'counts', undefined],
  ])
  expect(filterEntries(listed, {}).map(({ number }) => number)).toEqual([6, 5, 4, 3, 2, 1])
})

test('[REC28] an entry without a signature is marked where others of the record have one, and only there', () => {
  const signed = { ...c2, signature: { key: 'a'.repeat(64), value: 'b' } }
  const marks = (entries: readonly Entry[]) =>
    listEntries(derive('marram-house', entries)).map(({ unsigned }) => unsigned === true)
  expect(marks([note, signed])).toEqual([true, false])
  expect(marks([note, c1])).toEqual([false, false])
})

test.each([
  [{ step: 'cases' }, [4, 3, 2]],
  [{ author: 'T. Marsh' }, [6]],
  [{ correctedOnly: true }, [5, 4, 3, 2]],
  [{ text: 'LID tank' }, [1]],
  [{ text: 'another house' }, [5]],
  [{ text: 'tank shaft' }, []],
  [{ step: 'cases', text: 'confirmed' }, [3]],
] as const)('[REC21] a filter %j shows what passes every part of it, newest first', (filter, numbers) => {
  expect(filterEntries(listed, filter).map(({ number }) => number)).toEqual(numbers)
})

test('[REC21] an entry is found by its number and by its id', () => {
  expect(findListed(listed, '3')?.entry.id).toBe(c1b.id)
  expect(findListed(listed, c2.id)?.number).toBe(4)
  expect(findListed(listed, '7')).toBeUndefined()
  expect(findListed(listed, 'C1')).toBeUndefined()
})
