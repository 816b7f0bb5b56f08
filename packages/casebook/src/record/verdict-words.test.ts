import { expect, test } from 'vitest'
import { emptyHead, linkEntries } from '../chain/link.ts'
import { verifyChain } from '../chain/verify.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { hashGroups, verdictWords } from './verdict-words.ts'

const investigation = 'marram-house'
const { make } = entryMaker(investigation)
const notes = ['one', 'two', 'three'].map((text) => make('note.written', { text, purpose: 'note' }))
const links = linkEntries(emptyHead(investigation), { entries: notes, received: '2026-03-02T09:00:00.000Z' })

test('[REC26] a sound chain is told with its length and its head hash, and what waits besides', () => {
  const told = verdictWords(verifyChain(links, { investigation }), 2)
  expect(told).toMatchObject({ sound: true, hash: hashGroups(links[2]?.hash ?? '') })
  expect(told.words).toBe(
    'Sound: 3 entries, each tied to the one before it. 2 more wait to be tied in by the server. The head is entry 3:',
  )
  expect(verdictWords(verifyChain([], { investigation }), 0)).toEqual({
    sound: true,
    words: 'No entry is tied into the chain on this device yet.',
  })
})

test('[REC26] a broken chain is told with the first broken entry, the reason and what still holds', () => {
  const altered = structuredClone(links) as { entry: { author: string } }[]
  if (altered[1] !== undefined) altered[1].entry.author = 'S. Other'
  const told = verdictWords(verifyChain(altered, { investigation }), 0)
  expect(told).toMatchObject({ sound: false, hash: hashGroups(links[0]?.hash ?? '') })
  expect(told.words).toContain('Broken at entry 2: its content does not match its hash. Entry 1 is sound.')
})

test('[REC26] how many entries are signed is told where signatures were checked', () => {
  const words = (signed: number, unsigned: number): string =>
    verdictWords({ sound: true, head: { sequence: signed + unsigned, hash: 'a'.repeat(64) }, signed, unsigned }, 0)
      .words
  expect(words(3, 0)).toContain('All are signed, and every signature fits.')
  expect(words(2, 1)).toContain('2 are signed and fit, 1 carries no signature.')
  expect(words(0, 3)).toContain('None is signed.')
})

test('a hash is read in groups of four', () => {
  expect(hashGroups('0123456789abcdef')).toBe('0123 4567 89ab cdef')
})
