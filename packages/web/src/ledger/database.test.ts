import 'fake-indexeddb/auto'
import { openDB } from 'idb'
import { expect, test } from 'vitest'
import { openDatabase } from './database.ts'

test('pictures that waited by the field of an older version still wait, and those that were sent do not', async () => {
  const older = await openDB('older', 2, {
    upgrade: (database) => {
      for (const name of ['links', 'outbox', 'marks', 'device', 'keys', 'kept']) database.createObjectStore(name)
      database.createObjectStore('attachments', { keyPath: 'sha256' }).createIndex('waiting', 'waiting')
    },
  })
  const content = Uint8Array.of(1, 2, 3)
  for (const [sha256, waiting] of Object.entries({ first: 1, second: 0, third: 1 }))
    await older.put('attachments', { sha256, mediaType: 'image/png', content, waiting })
  older.close()
  const database = await openDatabase('older')
  expect(await database.getAllKeys('unsent')).toEqual(['first', 'third'])
  expect(await database.get('unsent', 'first')).toEqual({ bytes: 3, named: true })
  expect(await database.count('attachments')).toBe(3)
})
