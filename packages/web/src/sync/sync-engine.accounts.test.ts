import { added, door, investigation, writer } from '@rillmark/casebook/contests/contests.fixture.ts'
import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { MemoryLedger } from '@rillmark/casebook/ledger/memory-ledger.ts'
import { MemoryOutbox } from '@rillmark/casebook/ledger/memory-outbox.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { expect, test } from 'vitest'
import { exchange } from './sync-engine.ts'
import { type ServerPort, Unreachable } from './server-port.ts'

const RECEIVED = '2026-03-02T12:00:00.000Z'

/** A server on which the desk has written case C1, and a phone that wrote another C1 without knowing. */
async function twoAccounts() {
  const [at, held] = [door(), new MemoryLedger()]
  const keep = async (candidate: unknown) => {
    const decision = at.decide(candidate)
    await held.commit(linkEntries(await held.head(investigation), { entries: added(decision), received: RECEIVED }))
    return decision
  }
  await keep(writer('desk').aCase('C1', { seen: 0 }))
  const second = writer('phone').aCase('C1', { seen: 0 })
  const ledger = new MemoryLedger()
  const outbox = new MemoryOutbox({ ledger, device: 'phone' })
  await outbox.hold(second)
  const server: ServerPort = {
    push: async (_, entries) => {
      for (const entry of entries) await keep(entry)
      return {
        accepted: entries.map(({ id }) => ({ id, sequence: 3 })),
        refused: [],
        head: await held.head(investigation),
      }
    },
    pull: async (_, after) => ({
      links: await held.read(investigation, { after, limit: 9 }),
      head: await held.head(investigation),
    }),
  }
  return { ledger, outbox, server, second, held }
}

test('[SYN15] an entry the server kept as a second account leaves the outbox once the link that carries it is held here', async () => {
  const { ledger, outbox, server, second, held } = await twoAccounts()
  expect(await exchange({ investigation, ledger, outbox, server })).toEqual({ kind: 'done' })
  expect(await outbox.pending(investigation)).toEqual([])
  const links = await ledger.read(investigation, { after: 0, limit: 9 })
  expect(links.map(({ entry }) => entry.kind)).toEqual(['case.recorded', 'device.joined', 'entry.contested'])
  expect(links[2]?.entry.body).toMatchObject({ entry: { id: second.id } })
  expect(await ledger.head(investigation)).toEqual(await held.head(investigation))
})

test('[SYN15] also where the answer was lost, or the page was killed before it let go of it', async () => {
  const { ledger, outbox, server } = await twoAccounts()
  const lost: ServerPort = {
    ...server,
    push: async (...given) => {
      await server.push(...given)
      throw new Unreachable('the answer was lost')
    },
  }
  expect(await exchange({ investigation, ledger, outbox, server: lost })).toMatchObject({ kind: 'unreachable' })
  expect(await outbox.pending(investigation)).toHaveLength(1)
  expect(await exchange({ investigation, ledger, outbox, server })).toEqual({ kind: 'done' })
  expect(await outbox.pending(investigation)).toEqual([])
  expect((await ledger.head(investigation)).sequence).toBe(3)
})

test.each([
  ['its words', (entry: object) => ({ ...entry, body: { text: 'another', purpose: 'note' } })],
  ['its signature', (entry: object) => ({ ...entry, signature: { key: '0'.repeat(64), value: 'A'.repeat(86) } })],
])('[SYN21] a server that altered %s is parted from, and the copy that was signed stays', async (_, alter) => {
  const [ledger, key] = [new MemoryLedger(), testKey('phone')]
  const outbox = new MemoryOutbox({ ledger, device: 'phone' })
  const own = key.sign(writer('phone').note('as it was', { seen: 0 }))
  await outbox.hold(own)
  const entries = [alter(own) as typeof own]
  const links = linkEntries(emptyHead(investigation), { entries, received: RECEIVED })
  const head = { sequence: 1, hash: links[0]?.hash ?? '' }
  const server: ServerPort = {
    push: async () => ({ accepted: [{ id: own.id, sequence: 1 }], refused: [], head }),
    pull: async (__, after) => ({ links: links.slice(after), head }),
  }
  const parted = { kind: 'parted', reason: 'entry 1 is not as it was signed on this device' }
  expect(await exchange({ investigation, ledger, outbox, server })).toEqual(parted)
  expect(await outbox.pending(investigation)).toEqual([{ entry: own }])
  expect((await ledger.head(investigation)).sequence).toBe(0)
})
