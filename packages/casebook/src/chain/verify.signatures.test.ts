import { expect, test } from 'vitest'
import { checkSignature } from '../devices/signature.ts'
import type { Entry } from '../entry/entry.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { testKey } from '../testing/test-key.ts'
import { emptyHead, linkEntries } from './link.ts'
import { verifyChain } from './verify.ts'

const investigation = 'marram-house'
const RECEIVED = '2026-03-02T12:00:00.000Z'
const own = testKey('phone')
const other = testKey('another')

/** Joined, two notes by it, and one by a device without a key. */
function record() {
  const [phone, desk] = [entryMaker(investigation, { device: 'phone' }), entryMaker(investigation)]
  const joined = phone.make('device.joined', { name: 'Phone', role: 'sampler', key: own.key })
  const [one, two] = ['one', 'two'].map((text) => phone.make('note.written', { text, purpose: 'note' })) as [
    Entry,
    Entry,
  ]
  const plain = desk.make('note.written', { text: 'three', purpose: 'note' })
  return { joined, one, two, plain, phone, desk }
}

const walked = (entries: readonly Entry[]) =>
  verifyChain(linkEntries(emptyHead(investigation), { entries, received: RECEIVED }), {
    investigation,
    checkSignature,
  })

test('[DEV3] a signed record is sound, and signed and unsigned entries are counted', () => {
  const { joined, one, two, plain } = record()
  expect(walked([own.sign(joined), own.sign(one), own.sign(two), plain])).toMatchObject({
    sound: true,
    signed: 3,
    unsigned: 1,
  })
})

test('[REC8] without a check of signatures a record is walked as before', () => {
  const { plain } = record()
  const links = linkEntries(emptyHead(investigation), { entries: [plain], received: RECEIVED })
  expect(verifyChain(links, { investigation })).toEqual({ sound: true, head: { sequence: 1, hash: links[0]?.hash } })
})

test.each([
  ['changed after signing', (one: Entry) => ({ ...own.sign(one), author: 'S. Other' }), /does not fit/],
  ['not signed at all', (one: Entry) => one, /not signed/],
  ['signed by another key', (one: Entry) => other.sign(one), /another key/],
  [
    'signed by another key under the name of its own',
    (one: Entry) => ({ ...one, signature: { ...own.sign(one).signature, value: other.sign(one).signature.value } }),
    /does not fit/,
  ],
  ['signed as another entry', (one: Entry, two: Entry) => ({ ...one, signature: own.sign(two).signature }), /not fit/],
])('[DEV3] an entry %s is named as the first broken link, however well it is hashed', (_, alter, reason) => {
  const { joined, one, two, plain } = record()
  const altered: Entry = alter(one, two)
  expect(walked([own.sign(joined), altered, own.sign(two), plain])).toMatchObject({
    sound: false,
    sequence: 2,
    reason: expect.stringMatching(reason),
    lastSound: { sequence: 1 },
  })
})

test('[DEV3] joining with a key that is not one’s own, twice, or never, is noticed', () => {
  const { joined, one, phone } = record()
  expect(walked([other.sign(joined)])).toMatchObject({ sound: false, sequence: 1 })
  expect(walked([joined])).toMatchObject({ sound: false, sequence: 1, reason: expect.stringMatching(/not signed/) })
  const again = phone.make('device.joined', { ...joined.body, key: other.key })
  expect(walked([own.sign(joined), other.sign(again)])).toMatchObject({ sound: false, sequence: 2 })
  expect(walked([own.sign(one)])).toMatchObject({ sound: false, reason: expect.stringMatching(/has not joined/) })
})

test('[DEV5] a record in which a revoked device wrote on is not sound', () => {
  const { joined, one, desk } = record()
  const revoked = desk.make('device.revoked', { device: 'phone', reason: 'lost' })
  expect(walked([own.sign(joined), revoked, own.sign(one)])).toMatchObject({ sound: false, sequence: 3 })
})

test('[DEV3] a walk that begins later is given the keys known by then', () => {
  const { joined, one } = record()
  const links = linkEntries(emptyHead(investigation), {
    entries: [own.sign(joined), own.sign(one)],
    received: RECEIVED,
  })
  const [first, second] = links
  const after = { sequence: 1, hash: first?.hash ?? '' }
  const from = (keys?: ReadonlyMap<string, typeof own.key>) =>
    verifyChain([second], { investigation, after, checkSignature, keys }).sound
  expect([from(), from(new Map([['phone', own.key]]))]).toEqual([false, true])
})

test('[DEV3] a contested entry is held to the signature of the device that wrote it', () => {
  const { joined, one, desk } = record()
  const issues = [{ path: 'body', expected: 'x', received: 'y' }]
  const contested = (entry: Entry) => desk.make('entry.contested', { entry, issues, against: [] })
  expect(walked([own.sign(joined), contested(own.sign(one))])).toMatchObject({ sound: true, signed: 1, unsigned: 1 })
  expect(walked([own.sign(joined), contested({ ...own.sign(one), author: 'S. Other' })])).toMatchObject({
    sound: false,
    sequence: 2,
    reason: expect.stringMatching(/contested entry it carries/),
  })
})
