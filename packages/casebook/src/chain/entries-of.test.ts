import { expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { entriesOf } from './entries-of.ts'
import { emptyHead, linkEntries } from './link.ts'
import { verifyChain } from './verify.ts'

test('[REC10] an entry written before a field existed is sound as written and read with the default of that field', () => {
  const { make } = entryMaker('marram-house')
  const old = { ...make('note.written', { text: 'x', purpose: 'note' }), body: { text: 'x' } } as unknown as Entry
  const links = linkEntries(emptyHead('marram-house'), { entries: [old], received: '2026-03-02T09:00:00.000Z' })
  expect(verifyChain(links, { investigation: 'marram-house' })).toMatchObject({ sound: true })
  expect(entriesOf(links)).toMatchObject([{ body: { text: 'x', purpose: 'note' } }])
  expect(links[0]?.entry.body).toEqual({ text: 'x' })
})
