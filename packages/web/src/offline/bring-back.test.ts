import 'fake-indexeddb/auto'
import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test, vi } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import { bringBack, bringBackWhatIsLost, broughtBackWords } from './bring-back.ts'
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
    expect(await database.get('unsent', sha256)).toEqual({ bytes: PICTURE.length, named: false })
  }
  expect(await outbox.nextDeviceSequence('marram-house')).toBe(two.deviceSequence + 1)
})

test('[OFF15] what was said and written anew under one number comes back once, as said last, and what is of one number besides stays', async () => {
  const second = new SecondCopy({ caches: memoryCaches() })
  const phone = entryMaker('marram-house', { device: 'phone' })
  const other = entryMaker('marram-house', { device: 'phone-again' })
  const key = { kty: 'EC', crv: 'P-256', x: 'A'.repeat(43), y: 'A'.repeat(43) } as const
  const asLead = phone.make('device.joined', { name: 'Phone', role: 'lead', key })
  const one = phone.make('note.written', { text: 'one', purpose: 'note' })
  const again = { ...asLead, id: '0190a000-0000-7000-8000-000000000001', instant: '2026-03-09T08:00:00.000Z' }
  const asSampler = { ...again, body: { ...asLead.body, role: 'sampler' as const } }
  const beside = other.make('note.written', { text: 'beside', purpose: 'note' })
  expect(beside.deviceSequence).toBe(asLead.deviceSequence)
  for (const entry of [asLead, one, asSampler, beside]) await second.keep([entry])

  const database = await openDatabase('collided')
  // no name was made yet: a page closed here brings it back again
  for (let n = 0; n < 2; n += 1) {
    expect(await bringBackWhatIsLost({ database, second })).toEqual({ entries: 3, photos: 0 })
    const back = (await new IdbOutbox(database, '').pending('marram-house')).map(({ entry }) => entry)
    expect(back).toHaveLength(3)
    expect(back).toEqual(expect.arrayContaining([asSampler, one, beside]))
  }
  expect(await new IdbOutbox(database, '').nextDeviceSequence('marram-house')).toBe(one.deviceSequence + 2)
})

test('[OFF15] what can’t be brought back keeps no app from opening, is dropped by nobody, and is back the next time', async () => {
  const second = new SecondCopy({ caches: memoryCaches() })
  const one = entryMaker('marram-house').make('note.written', { text: 'one', purpose: 'note' })
  await second.keep([one])
  const database = await openDatabase('full-when-lost')
  const full = vi
    .spyOn(IdbOutbox.prototype, 'holdAll')
    .mockRejectedValue(new DOMException('full', 'QuotaExceededError'))
  expect(await bringBackWhatIsLost({ database, second })).toBeUndefined()
  full.mockRestore()
  await database.put('device', 'browser-2', 'id')
  await second.dropUnlessWaiting('marram-house', async () => false)

  expect(await bringBackWhatIsLost({ database, second })).toEqual({ entries: 1, photos: 0 })
  expect(await new IdbOutbox(database, '').pending('marram-house')).toEqual([{ entry: one }])
  expect(await bringBackWhatIsLost({ database, second })).toBeUndefined()
})

test('[OFF15] a first visit brings nothing back and says nothing', async () => {
  const database = await openDatabase('first-visit')
  expect(await bringBack({ database, second: new SecondCopy({ caches: memoryCaches() }) })).toBeUndefined()
})

test('what is back is counted in words', () => {
  expect(broughtBackWords({ entries: 1, photos: 0 })).toContain('is back: 1 entry.')
  expect(broughtBackWords({ entries: 12, photos: 3 })).toContain('is back: 12 entries, 3 photos.')
})
