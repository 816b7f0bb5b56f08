import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { MemoryLedger } from '@rillmark/casebook/ledger/memory-ledger.ts'
import { MemoryOutbox } from '@rillmark/casebook/ledger/memory-outbox.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { FakeServer } from './fake-server.fixture.ts'
import { exchange } from './sync-engine.ts'

const investigation = 'marram-house'
const ALL = { after: 0, limit: 100_000 }

function device(name: string, server: FakeServer) {
  const ledger = new MemoryLedger()
  const outbox = new MemoryOutbox({ ledger, device: name })
  const { make } = entryMaker(investigation, { device: name })
  const write = async (text: string): Promise<Entry> => {
    const entry = make('note.written', { text, purpose: 'note' })
    await outbox.hold(entry)
    return entry
  }
  return { ledger, outbox, write, make, sync: () => exchange({ investigation, ledger, outbox, server }) }
}

const texts = async (ledger: MemoryLedger) =>
  (await ledger.read(investigation, ALL)).map(({ entry }) =>
    entry.kind === 'note.written' ? entry.body.text : entry.kind,
  )

test('[SYN1] what waits is pushed in order, pulled back verified, and only then leaves the outbox', async () => {
  const server = new FakeServer()
  const desk = device('desk', server)
  for (const text of ['one', 'two', 'three']) await desk.write(text)
  expect(await desk.sync()).toEqual({ kind: 'done' })
  expect(await texts(desk.ledger)).toEqual(['one', 'two', 'three'])
  expect(await desk.outbox.pending(investigation)).toEqual([])
  expect(await desk.ledger.head(investigation)).toEqual(await server.ledger.head(investigation))
})

test.each(['before', 'after'] as const)(
  '[SYN2] a network cut %s the server acts loses nothing and doubles nothing',
  async (cut) => {
    const server = new FakeServer()
    const desk = device('desk', server)
    await desk.write('one')
    const push = server.push
    Object.assign(server, {
      push: async (...args: Parameters<typeof push>) => {
        server.cut = cut
        return push(...args)
      },
    })
    expect(await desk.sync()).toMatchObject({ kind: 'unreachable' })
    expect(await desk.outbox.pending(investigation)).toHaveLength(1)
    server.cut = 'no'
    Object.assign(server, { push })
    expect(await desk.sync()).toEqual({ kind: 'done' })
    expect(await texts(server.ledger)).toEqual(['one'])
    expect(await desk.outbox.pending(investigation)).toEqual([])
  },
)

test('[SYN3] a refused entry stays with its reasons, is not sent again, and does not hold up the others', async () => {
  const server = new FakeServer()
  const desk = device('desk', server)
  const stray = desk.make('note.written', { text: 'x', purpose: 'note' }, { entry: crypto.randomUUID(), reason: 'r' })
  await desk.outbox.hold(stray)
  await desk.write('fine')
  expect(await desk.sync()).toEqual({ kind: 'done' })
  expect(await texts(server.ledger)).toEqual(['fine'])
  expect(await desk.outbox.pending(investigation)).toMatchObject([
    { entry: { id: stray.id }, refused: [{ path: 'corrects.entry' }] },
  ])
  const { pushes } = server
  await desk.sync()
  expect(server.pushes).toBe(pushes)
})

test.each([
  ['received before its forerunner', '2026-03-01T12:00:00.000Z', 3, 'received before its forerunner'],
  ['out of the order of its device', '2026-03-02T12:00:00.000Z', 0, 'device number 1 does not follow 2'],
  ['under an id that was used before', '2026-03-02T12:00:00.000Z', 1, 'was used before'],
] as const)(
  '[SYN4] what came later is held against all that came before it: %s',
  async (_, received, which, reason) => {
    const server = new FakeServer()
    const other = entryMaker(investigation, { device: 'phone' })
    const note = (text: string) => other.make('note.written', { text, purpose: 'note' })
    const [late, one, two] = [note('late'), note('one'), note('two')]
    const made = [late, { ...two, id: one.id }, two, two]
    const desk = device('desk', server)
    await server.ledger.commit(
      linkEntries(emptyHead(investigation), { entries: [one], received: '2026-03-02T12:00:00.000Z' }),
    )
    expect(await desk.sync()).toEqual({ kind: 'done' })
    const head = await desk.ledger.head(investigation)
    const [entry = two] = [made[which]]
    const links = linkEntries(head, { entries: [entry], received })
    server.pull = async () => ({ links, head: { sequence: 2, hash: links[0]?.hash ?? '' } })
    expect(await desk.sync()).toMatchObject({ kind: 'parted', reason: expect.stringContaining(reason) })
    expect(await desk.ledger.head(investigation)).toEqual(head)
  },
)

test('[SYN4] links that do not continue what is held are not kept: altered, another record, or fewer', async () => {
  const server = new FakeServer()
  const desk = device('desk', server)
  await desk.write('one')
  await desk.sync()
  const before = await desk.ledger.read(investigation, ALL)
  const honest = server.ledger
  const other = entryMaker(investigation, { device: 'other' })
  const records = [
    [],
    [other.make('note.written', { text: 'another', purpose: 'note' })],
    [
      other.make('note.written', { text: 'a', purpose: 'note' }),
      other.make('note.written', { text: 'b', purpose: 'note' }),
    ],
  ]
  for (const entries of records) {
    server.ledger = new MemoryLedger()
    await server.ledger.commit(linkEntries(emptyHead(investigation), { entries, received: '2026-03-02T12:00:00.000Z' }))
    expect(await desk.sync()).toMatchObject({ kind: 'parted' })
    expect(await desk.ledger.read(investigation, ALL)).toEqual(before)
  }
  server.ledger = honest
  expect(await desk.sync()).toEqual({ kind: 'done' })
})

test('[SYN4] one altered link among those pulled is noticed and nothing of that pull is kept', async () => {
  const server = new FakeServer()
  const [desk, phone] = [device('desk', server), device('phone', server)]
  for (const text of ['one', 'two', 'three']) await desk.write(text)
  await desk.sync()
  const pull = server.pull
  Object.assign(server, {
    pull: async (id: string, after: number) => {
      const given = await pull(id, after)
      const links = structuredClone(given.links) as { entry: { author: string } }[]
      if (links[1] !== undefined) links[1].entry.author = 'S. Other'
      return { ...given, links }
    },
  })
  expect(await phone.sync()).toMatchObject({ kind: 'parted', reason: expect.stringContaining('entry 2') })
  expect(await phone.ledger.read(investigation, ALL)).toEqual([])
})

test('[SYN6] whatever two devices write, lose and exchange, in any order, both end with the same record and nothing lost', async () => {
  const step = fc.constantFrom(
    'desk writes',
    'phone writes',
    'desk syncs',
    'phone syncs',
    'cut before',
    'cut after',
    'mend',
  )
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 40 }), async (steps) => {
      const server = new FakeServer({ page: 3 })
      const devices = { desk: device('desk', server), phone: device('phone', server) }
      let written = 0
      for (const each of steps) {
        if (each === 'cut before' || each === 'cut after') server.cut = each === 'cut before' ? 'before' : 'after'
        else if (each === 'mend') server.cut = 'no'
        else {
          const [name, act] = each.split(' ') as ['desk' | 'phone', 'writes' | 'syncs']
          if (act === 'syncs') await devices[name].sync()
          else await devices[name].write(`note ${(written += 1)}`)
        }
      }
      server.cut = 'no'
      for (const name of ['desk', 'phone', 'desk'] as const)
        expect(await devices[name].sync()).toEqual({ kind: 'done' })
      const record = await server.ledger.read(investigation, ALL)
      expect(record).toHaveLength(written)
      for (const { ledger, outbox } of Object.values(devices)) {
        expect(await ledger.read(investigation, ALL)).toEqual(record)
        expect(await outbox.pending(investigation)).toEqual([])
      }
    }),
    { numRuns: 60 },
  )
})

test('[SYN19] every batch says the latest instant of all that waits by one setting of the clock, each setting in batches of its own', async () => {
  const server = new FakeServer()
  const { outbox, make, sync } = device('desk', server)
  const told: string[] = []
  const push = server.push
  Object.assign(server, {
    push: (...args: Parameters<typeof push>) => {
      told.push(`${args[1].length} ${args[2]?.latest}`)
      return push(...args)
    },
  })
  const day = (n: number, second: number) => new Date(Date.UTC(2026, 2, n, 8, 0, second)).toISOString()
  const written = [
    ...Array.from({ length: 60 }, (_, n) => day(3, n)),
    ...Array.from({ length: 3 }, (_, n) => day(2, n)),
  ]
  for (const instant of written) await outbox.hold({ ...make('note.written', { text: 'x', purpose: 'note' }), instant })
  expect(await sync()).toEqual({ kind: 'done' })
  expect(told).toEqual([`50 ${day(3, 59)}`, `10 ${day(3, 59)}`, `3 ${day(2, 2)}`])
})

test('[SYN1] what the server has not looked at yet is sent again, and one that takes nothing is not asked for ever', async () => {
  const server = new FakeServer()
  const desk = device('desk', server)
  for (const text of ['one', 'two', 'three', 'four', 'five']) await desk.write(text)
  const push = server.push
  Object.assign(server, {
    push: (...[id, entries, told]: Parameters<typeof push>) => push(id, entries.slice(0, 2), told),
  })
  expect(await desk.sync()).toEqual({ kind: 'done' })
  expect(await texts(server.ledger)).toEqual(['one', 'two', 'three', 'four', 'five'])
  expect(server.pushes).toBe(3)
  await desk.write('six')
  Object.assign(server, { push: (...[id, , told]: Parameters<typeof push>) => push(id, [], told) })
  expect(await desk.sync()).toEqual({ kind: 'unreachable', reason: 'the server took none of what was sent' })
  expect(await desk.outbox.pending(investigation)).toHaveLength(1)
})
