import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { readPackage } from '@rillmark/exchange/package/read-package.ts'
import { expect, test } from 'vitest'
import { gatherPackage } from './gather-package.ts'

const MB = 1024 * 1024
const { make } = entryMaker('marram-house')
const hashOf = (n: number) => n.toString(16).padStart(64, '0')

/** A record with so many photos; nothing else of it matters here. */
function recordWith(photos: number) {
  const entries = Array.from({ length: photos }, (_, n) =>
    make('photo.taken', {
      round: 'R1',
      stop: 'S1',
      sha256: hashOf(n),
      mediaType: 'image/png',
      bytes: 20 * MB,
      shows: 'tap',
    }),
  )
  return linkEntries(emptyHead('marram-house'), { entries, received: '2026-03-02T09:00:00.000Z' })
}

test('[PKG12] a package that nobody could read again is not written; without its pictures it is, and names them', async () => {
  const links = recordWith(30)
  const picture = new Uint8Array(20 * MB)
  let asked = 0
  const attachment = async () => {
    asked += 1
    return picture
  }
  const refused = await gatherPackage(links, { attachment })
  expect(refused).toMatchObject({
    ok: false,
    issues: [{ path: 'pictures', expected: 'at most 512 MB in one package' }],
  })
  // it stops as soon as they are too many
  expect(asked).toBe(26)
  const gathered = await gatherPackage(links, { attachment, withoutPictures: true })
  const read = gathered.ok ? readPackage(gathered.bytes) : gathered
  expect(read).toMatchObject({ ok: true, value: { manifest: { missing: links.map((_, n) => hashOf(n)) } } })
})
