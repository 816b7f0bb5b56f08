import 'fake-indexeddb/auto'
import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import { bringBack, broughtBackWords } from './bring-back.ts'
import { memoryCaches } from './caches.fixture.ts'
import { SecondCopy } from './second-copy.ts'

const PICTURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 5)

test('[OFF15] where the database comes up empty, what waited is back in its order, once, and numbers go on after it', async () => {
  const second = new SecondCopy({ caches: memoryCaches() })
  const { make } = entryMaker('marram-house')
  const note = (text: string) => make('note.written', { text, purpose: 'note' })
  const [one, two] = [note('one'), note('two')]
  await second.keep([two])
  await second.keep([one])
  const sha256 = sha256OfBytes(PICTURE)
  await second.keepPhoto(sha256, new Blob([PICTURE]))

  const database = await openDatabase('brought-back')
  const outbox = new IdbOutbox(database, 'browser-2')
  for (let n = 0; n < 2; n += 1) {
    expect(await bringBack({ database, second })).toEqual({ entries: 2, photos: 1 })
    expect(await outbox.pending('marram-house')).toEqual([{ entry: one }, { entry: two }])
    expect(await database.getAll('attachments')).toEqual([{ sha256, mediaType: 'image/png', content: PICTURE }])
    expect(await database.get('unsent', sha256)).toEqual({ bytes: PICTURE.length, named: true })
  }
  expect(await outbox.nextDeviceSequence('marram-house')).toBe(two.deviceSequence + 1)
})

test('[OFF15] a first visit brings nothing back and says nothing', async () => {
  const database = await openDatabase('first-visit')
  expect(await bringBack({ database, second: new SecondCopy({ caches: memoryCaches() }) })).toBeUndefined()
})

test('what is back is counted in words', () => {
  expect(broughtBackWords({ entries: 1, photos: 0 })).toContain('is back: 1 entry.')
  expect(broughtBackWords({ entries: 12, photos: 3 })).toContain('is back: 12 entries, 3 photos.')
})
