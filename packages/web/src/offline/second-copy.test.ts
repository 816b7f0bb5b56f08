import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
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
  expect(await second.photos()).toEqual([{ sha256: 'abc', mediaType: 'image/png', content: PICTURE }])

  await second.dropUnlessWaiting('marram-house', async () => false)
  await second.dropPhoto('abc')
  expect(await second.entries()).toEqual([elsewhere])
  expect(await second.photos()).toEqual([])
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
