import 'fake-indexeddb/auto'
import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test } from 'vitest'
import { KeptCopies } from '../offline/kept-copies.ts'
import { readEarly } from '../opening/early-links.ts'
import type { Still } from '../opening/still.ts'
import { becomeAnother } from '../sync/identity.ts'
import { SignatureWatch } from '../sync/signature-watch.ts'
import { type DeviceDatabase, openDatabase } from './database.ts'
import { IdbLedger } from './idb-ledger.ts'
import { IdbOutbox } from './idb-outbox.ts'
import { keepStill } from './idb-stills.ts'

const ID = 'marram-house'
const OTHER = 'gull-house'
const STILL: Still = { build: 'b1', place: `/i/${ID}/brief`, width: 390, settings: '[]', html: '<main></main>' }

/** One link, one entry that waits, and a still of that; of another investigation too. */
async function kept() {
  const name = 'rillmark'
  await new Promise((resolve) => indexedDB.deleteDatabase(name).addEventListener('success', resolve))
  const database = await openDatabase(name)
  const { make } = entryMaker(ID)
  const note = (text: string) => make('note.written', { text, purpose: 'note' })
  const [first, second, third] = [note('one'), note('two'), note('three')]
  const [ledger, outbox] = [new IdbLedger(database), new IdbOutbox(database, 'desk-1')]
  const linked = (entries: (typeof first)[], head = emptyHead(ID)) =>
    linkEntries(head, { entries, received: '2026-03-02T09:00:00.000Z' })
  await ledger.commit(linked([first]))
  await outbox.hold(second)
  const drawnFrom = { links: 1, waiting: [second.id], refused: [] }
  expect(await keepStill(database, { investigation: ID, still: STILL, drawnFrom })).toBe(true)
  const none = { links: 0, waiting: [], refused: [] }
  expect(await keepStill(database, { investigation: OTHER, still: STILL, drawnFrom: none })).toBe(true)
  return { database, ledger, outbox, linked, first, second, third }
}
type Kept = Awaited<ReturnType<typeof kept>>

test('[OFF17] at the opening a still is found with how the record stands', async () => {
  const { database, second } = await kept()
  const standing = { links: 1, waiting: [second.id] }
  expect(await readEarly(ID)).toEqual({ still: { ...STILL, ...standing }, standing })
  expect(await readEarly('nowhere')).toBeUndefined()
  database.close()
})

test('[OFF18] a still of a record that has changed since it was drawn is not kept', async () => {
  const { database, second, first } = await kept()
  for (const drawnFrom of [
    { links: 0, waiting: [second.id], refused: [] },
    { links: 1, waiting: [], refused: [] },
    { links: 1, waiting: [first.id], refused: [] },
    { links: 1, waiting: [second.id], refused: [second.id] },
  ])
    expect(await keepStill(database, { investigation: ID, still: STILL, drawnFrom })).toBe(false)
  database.close()
})

const DROPS: readonly [string, (given: Kept) => Promise<unknown>][] = [
  ['an entry is written here', ({ outbox, third }) => outbox.hold(third)],
  [
    'entries come from the server',
    ({ ledger, linked, second, first }) => ledger.commit(linked([first, second]).slice(1)),
  ],
  [
    'the server refuses one',
    ({ outbox, second }) => outbox.refuse(second.id, [{ path: '', expected: 'another', received: 'this' }]),
  ],
  ['the copy is forgotten', ({ ledger }) => ledger.forget(ID)],
  [
    'the copy is let go',
    async ({ database, outbox, second }) => {
      await outbox.release([second.id])
      const parts = { database, now: () => '', fetchPhoto: async () => undefined, room: async () => undefined }
      return new KeptCopies({ ...parts, alone: (_name, work) => work() }).letGo(ID)
    },
  ],
  ['this browser becomes another device', ({ database }) => becomeAnother(database)],
  [
    'an entry turns out not to hold',
    ({ database }) =>
      new SignatureWatch({
        database,
        verify: async () => ({
          sound: false,
          sequence: 1,
          reason: 'its signature does not fit',
          lastSound: emptyHead(ID),
        }),
      }).check(ID),
  ],
]

test.each(DROPS)('[OFF18] when %s, the still is gone in the same stroke', async (_, change) => {
  const given = await kept()
  expect(await stillsIn(given.database)).toContain(`still ${ID}`)
  await change(given)
  expect(await stillsIn(given.database)).not.toContain(`still ${ID}`)
  given.database.close()
})

test('[OFF18] where the change is not kept after all, the still stays', async () => {
  const { database, outbox, second, third } = await kept()
  const clash = { ...third, deviceSequence: second.deviceSequence }
  await expect(outbox.hold(clash)).rejects.toMatchObject({ name: 'ConstraintError' })
  expect(await stillsIn(database)).toContain(`still ${ID}`)
  database.close()
})

test('a still of another investigation stays', async () => {
  const { database, outbox, third } = await kept()
  await outbox.hold(third)
  expect(await stillsIn(database)).toEqual([`still ${OTHER}`])
  database.close()
})

async function stillsIn(database: DeviceDatabase): Promise<string[]> {
  return (await database.getAllKeys('device')).filter((key) => key.startsWith('still '))
}
