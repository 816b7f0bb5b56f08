import { createHash } from 'node:crypto'
import * as fs from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import * as fc from 'fast-check'
import { afterAll, expect, test } from 'vitest'
import { Attachments } from './attachments.ts'
import { RESERVED_BYTES, Room } from '../folder/room.ts'
import { Pieces, UNFINISHED_DAYS, UNFINISHED_LIMIT_BYTES } from './pieces.ts'

const root = fs.mkdtempSync(join(tmpdir(), 'rillmark-pieces-'))
afterAll(() => fs.rmSync(root, { recursive: true, force: true }))

let folders = 0
const freshFolder = () => join(root, String((folders += 1)))

/** A server's part over a folder; opening it again is what a restart after a kill is. */
function opened(folder: string, { freeBytes = Number.MAX_SAFE_INTEGER, now = () => Date.now() } = {}) {
  const attachments = new Attachments(join(folder, 'attachments'))
  const unfinished = join(folder, 'attachments', 'unfinished')
  const room = new Room({ freeBytes: async () => freeBytes, now })
  const pieces = new Pieces({ attachments, folder: unfinished, now, room })
  return { attachments, pieces, unfinished }
}

/** A picture by its first bytes (JPEG, ITU-T T.81: SOI marker), then noise that follows from the seed. */
function picture(bytes: number, seed = 1): { content: Uint8Array; sha256: string } {
  let word = seed
  const content = Uint8Array.from({ length: bytes }, () => (word = Math.imul(word, 48_271) % 2_147_483_647) & 0xff)
  content.set([0xff, 0xd8, 0xff])
  return { content, sha256: createHash('sha256').update(content).digest('hex') }
}

const pieceOf = (
  { content, sha256 }: ReturnType<typeof picture>,
  { from, to }: { from: number; to: number },
): Parameters<Pieces['put']>[0] => ({ sha256, from, of: content.length, bytes: content.subarray(from, to) })

test('[PIC1] a picture is whole when its last piece came, and a restart in between costs nothing', async () => {
  const folder = freshFolder()
  const photo = picture(1000)
  expect(await opened(folder).pieces.put(pieceOf(photo, { from: 0, to: 400 }))).toEqual(kept(400))
  expect(await opened(folder).pieces.received(photo.sha256)).toEqual({ received: 400, whole: false })
  expect(await opened(folder).attachments.read(photo.sha256)).toBeUndefined()
  const { pieces, attachments, unfinished } = opened(folder)
  expect(await pieces.put(pieceOf(photo, { from: 400, to: 1000 }))).toEqual(kept(1000, true))
  expect((await attachments.read(photo.sha256))?.bytes).toEqual(Buffer.from(photo.content))
  expect(fs.readdirSync(unfinished)).toEqual([])
  expect(await pieces.put(pieceOf(photo, { from: 0, to: 400 }))).toEqual(kept(1000, true))
})

test('[PIC1] whoever was killed between the last piece and the look at the whole goes on from there', async () => {
  const folder = freshFolder()
  const photo = picture(500)
  const { unfinished, pieces } = opened(folder)
  fs.mkdirSync(unfinished, { recursive: true })
  fs.writeFileSync(join(unfinished, photo.sha256), photo.content)
  expect(await pieces.received(photo.sha256)).toEqual({ received: 500, whole: false })
  expect(await pieces.put(pieceOf(photo, { from: 300, to: 500 }))).toEqual(kept(500, true))
})

test('[PIC2] devices that send one picture at once, in whatever turns and after whatever restarts, end with it whole', async () => {
  const act = fc.record({ device: fc.nat(2), length: fc.integer({ min: 20, max: 90 }), restart: fc.boolean() })
  await fc.assert(
    fc.asyncProperty(fc.array(act, { minLength: 30, maxLength: 30 }), async (acts) => {
      const folder = freshFolder()
      const photo = picture(300)
      const at = [0, 0, 0]
      let { pieces } = opened(folder)
      for (const { device, length, restart } of acts) {
        if (restart) pieces = opened(folder).pieces
        const from = at[device] ?? 0
        const outcome = await pieces.put(
          pieceOf(photo, { from: Math.min(from, 299), to: Math.min(from + length, 300) }),
        )
        if (!('received' in outcome)) throw new Error(outcome.kind)
        at[device] = outcome.received
      }
      const held = await opened(folder).attachments.read(photo.sha256)
      expect(held === undefined ? undefined : Buffer.compare(held.bytes, photo.content)).toBe(0)
    }),
    { seed: 2_112_026, numRuns: 40 },
  )
})

test('[PIC2] pieces that come at the very same time are taken one after the other', async () => {
  const photo = picture(1000)
  const { pieces } = opened(freshFolder())
  const outcomes = await Promise.all(Array.from({ length: 4 }, () => pieces.put(pieceOf(photo, { from: 0, to: 600 }))))
  expect(outcomes.map(({ kind }) => kind).sort()).toEqual(['kept', 'out of place', 'out of place', 'out of place'])
  expect(await pieces.put(pieceOf(photo, { from: 600, to: 1000 }))).toEqual(kept(1000, true))
})

test('[PIC3] pieces that add up to other bytes than the name says are thrown away, and the right ones can follow', async () => {
  const folder = freshFolder()
  const { pieces, attachments, unfinished } = opened(folder)
  const [photo, other] = [picture(600, 1), picture(600, 7)]
  await pieces.put({ ...pieceOf(other, { from: 0, to: 300 }), sha256: photo.sha256 })
  expect(await pieces.put(pieceOf(photo, { from: 300, to: 600 }))).toEqual({ kind: 'other bytes' })
  expect(await pieces.received(photo.sha256)).toEqual({ received: 0, whole: false })
  expect(fs.readdirSync(unfinished)).toEqual([])
  await pieces.put({ ...pieceOf(other, { from: 0, to: 600 }), of: 900, sha256: photo.sha256 })
  await pieces.put({ ...pieceOf(other, { from: 0, to: 100 }), from: 600, of: 900, sha256: photo.sha256 })
  expect(await pieces.put(pieceOf(photo, { from: 0, to: 300 }))).toEqual({
    kind: 'out of place',
    received: 0,
    whole: false,
  })
  await pieces.put(pieceOf(photo, { from: 0, to: 300 }))
  expect(await pieces.put(pieceOf(photo, { from: 300, to: 600 }))).toEqual(kept(600, true))
  expect((await attachments.read(photo.sha256))?.bytes).toEqual(Buffer.from(photo.content))
})

test('[PIC4] what is no picture, or longer than it says, leaves nothing', async () => {
  const { pieces, unfinished } = opened(freshFolder())
  const photo = picture(100)
  const text = new TextEncoder().encode('this is no picture at all')
  expect(await pieces.put({ ...pieceOf(photo, { from: 0, to: 9 }), bytes: text })).toEqual({ kind: 'no picture' })
  expect(await pieces.put({ ...pieceOf(photo, { from: 0, to: 100 }), of: 50 })).toEqual({ kind: 'too long' })
  expect(fs.existsSync(unfinished)).toBe(false)
})

test('[PIC5] pictures stop while there is still room for entries, and so do too many at once', async () => {
  const photo = picture(100)
  const full = opened(freshFolder(), { freeBytes: RESERVED_BYTES - 1 })
  expect(await full.pieces.put(pieceOf(photo, { from: 0, to: 50 }))).toEqual({ kind: 'disk nearly full' })
  expect(fs.existsSync(full.unfinished)).toBe(false)
  const busy = opened(freshFolder())
  fs.mkdirSync(busy.unfinished, { recursive: true })
  const large = join(busy.unfinished, picture(3).sha256)
  fs.writeFileSync(large, '')
  fs.truncateSync(large, UNFINISHED_LIMIT_BYTES - 20)
  expect(await busy.pieces.put(pieceOf(photo, { from: 0, to: 50 }))).toEqual({ kind: 'too many unfinished' })
})

test('[PIC6] what nobody added to for a fortnight is thrown away, and a younger one is not', async () => {
  const folder = freshFolder()
  const [old, young, next] = [picture(100, 2), picture(100, 3), picture(100, 4)]
  const before = opened(folder)
  for (const photo of [old, young]) await before.pieces.put(pieceOf(photo, { from: 0, to: 60 }))
  const aged = (days: number) => new Date(Date.now() - days * 86_400_000)
  fs.utimesSync(join(before.unfinished, old.sha256), aged(UNFINISHED_DAYS + 1), aged(UNFINISHED_DAYS + 1))
  fs.utimesSync(join(before.unfinished, young.sha256), aged(UNFINISHED_DAYS - 1), aged(UNFINISHED_DAYS - 1))
  const { sha256 } = picture(9)
  const part = join(folder, 'attachments', sha256.slice(0, 2), `${sha256}.x.part`)
  fs.mkdirSync(join(part, '..'), { recursive: true })
  fs.writeFileSync(part, 'killed in the middle')
  fs.utimesSync(part, aged(2), aged(2))
  await opened(folder).pieces.put(pieceOf(next, { from: 0, to: 60 }))
  expect(fs.readdirSync(before.unfinished).sort()).toEqual([young.sha256, next.sha256].sort())
  expect(fs.existsSync(part)).toBe(false)
  expect(fs.statSync(join(before.unfinished, young.sha256)).size).toBe(60)
})

function kept(received: number, whole = false) {
  return { kind: 'kept', received, whole }
}
