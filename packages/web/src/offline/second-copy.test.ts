import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { expect, test } from 'vitest'
import { memoryCaches } from './caches.fixture.ts'
import { SecondCopy } from './second-copy.ts'

const { make } = entryMaker('marram-house')
const note = (text: string) => make('note.written', { text, purpose: 'note' })
const PICTURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 5)

test('[OFF15] what is kept twice is read back whole, and goes when nothing of its investigation waits any more', async () => {
  const second = new SecondCopy({ caches: memoryCaches() })
  const [first, other] = [note('one'), note('two')]
  const elsewhere = entryMaker('quillhaven').make('note.written', { text: 'there', purpose: 'note' })
  await second.keep([first, other])
  await second.keep([elsewhere])
  await second.keepPhoto('abc', new Blob([PICTURE]))
  await second.dropUnlessWaiting('marram-house', async () => true)
  expect(await second.entries()).toEqual([first, other, elsewhere])
  expect(await second.photos()).toEqual([{ sha256: 'abc', mediaType: 'image/png', content: PICTURE, named: false }])

  await second.dropUnlessWaiting('marram-house', async () => false)
  await second.dropPhoto('abc')
  expect(await second.entries()).toEqual([elsewhere])
  expect(await second.photos()).toEqual([])
})

test('[OFF15] [SYN22] a photo is told to be named once an entry names it, also after that has arrived, and one of an older version is', async () => {
  const caches = memoryCaches()
  const second = new SecondCopy({ caches })
  const named = async () => (await second.photos()).map((photo) => photo.named)
  const sha256 = 'a'.repeat(64)
  await second.keepPhoto(sha256, new Blob([PICTURE]))
  expect(await named()).toEqual([false])
  const photo = { sha256, mediaType: 'image/png', bytes: PICTURE.length, subject: { kind: 'building' } } as const
  await second.keep([{ ...note('a photo'), kind: 'photo.taken', body: photo } as unknown as Entry])
  await second.dropUnlessWaiting('marram-house', async () => false)
  expect([await second.entries(), await named()]).toEqual([[], [true]])
  await second.dropPhoto(sha256)
  await second.keepPhoto(sha256, new Blob([PICTURE]))
  expect(await named()).toEqual([false])
  await (await caches.open('rillmark-waiting')).put(`/waiting/photos/${sha256}`, new Response(new Blob([PICTURE])))
  expect(await named()).toEqual([true])
})

test('[OFF15] what was replaced or settled leaves it, and what was written in one act with that stays', async () => {
  const second = new SecondCopy({ caches: memoryCaches() })
  const [first, other, third] = [note('one'), note('two'), note('three')]
  await second.keep([first, other])
  await second.keep([third])
  await second.dropEntries('marram-house', [first.id, third.id])
  expect(await second.entries()).toEqual([other])
})

test('[OFF15] what is written while it is asked whether anything waits is not dropped', async () => {
  const second = new SecondCopy({ caches: memoryCaches() })
  const [before, meanwhile] = [note('one'), note('two')]
  await second.keep([before])
  await second.dropUnlessWaiting('marram-house', async () => {
    await second.keep([meanwhile])
    return false
  })
  expect(await second.entries()).toEqual([meanwhile])
})

test('[OFF15] a full device, a browser without such a store and a half written copy stop nothing', async () => {
  const full = new SecondCopy({
    caches: {
      open: async () => Promise.reject(new DOMException('full', 'QuotaExceededError')),
      has: async () => false,
    },
  } as unknown as { caches: CacheStorage })
  for (const second of [full, new SecondCopy({})]) {
    await second.keep([note('one')])
    await second.keepPhoto('abc', new Blob([PICTURE]))
    expect([...(await second.entries()), ...(await second.photos())]).toEqual([])
  }
  const caches = memoryCaches()
  const second = new SecondCopy({ caches })
  const whole = note('whole')
  await second.keep([whole])
  await (await caches.open('rillmark-waiting')).put('/waiting/entries/marram-house/x', new Response('[{"id":'))
  expect(await second.entries()).toEqual([whole])
})
