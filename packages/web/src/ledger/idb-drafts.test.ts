import 'fake-indexeddb/auto'
import { expect, it } from 'vitest'
import { openDatabase } from './database.ts'
import { keepDraft, readDraft } from './idb-drafts.ts'

it('keeps the last of each draft over a reload, until it is taken away', async () => {
  const name = 'plan marram-house R1'
  const before = await openDatabase('drafts')
  await before.put('device', 'browser-1', 'id')
  await Promise.all(['one', 'two', 'three'].map((text) => keepDraft(before, { name, text })))
  before.close()
  const after = await openDatabase('drafts')
  expect(await readDraft(after, name)).toBe('three')
  expect(await readDraft(after, 'plan marram-house R2')).toBeUndefined()
  await keepDraft(after, { name, text: undefined })
  expect(await readDraft(after, name)).toBeUndefined()
  expect(await after.get('device', 'id')).toBe('browser-1')
})
