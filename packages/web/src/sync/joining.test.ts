import 'fake-indexeddb/auto'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import { deviceKey } from './device-key.ts'
import { memoryCaches } from '../offline/caches.fixture.ts'
import { SecondCopy } from '../offline/second-copy.ts'
import type { AsWhom } from './enrolled.ts'
import { FakeServer } from './fake-server.fixture.ts'
import { LocalInvestigation } from './open-investigation.ts'
import { uuid7 } from './uuid7.ts'

const investigation = 'marram-house'
let databases = 0

/** A browser with a key. `known`: as whom it takes itself to write; `says`: what the server answers when it is asked. */
async function browser(server: FakeServer) {
  const database = await openDatabase(`joining-${(databases += 1)}`)
  const key = await deviceKey(database)
  const second = new SecondCopy({ caches: memoryCaches() })
  const standing: { known?: AsWhom; says?: AsWhom } = {}
  let minutes = 0
  const tails = new Map<string, Promise<unknown>>()
  const tab = async () => {
    const local = new LocalInvestigation(investigation, {
      database,
      device: 'phone',
      now: () => ({ instant: new Date(Date.UTC(2026, 2, 2, 8, (minutes += 1))).toISOString(), offset: '+00:00' }),
      newId: () => uuid7(),
      signer: async () => (key === undefined ? undefined : { key, as: standing.known }),
      learnAsWhom: async () => standing.says,
      server,
      second,
      alone: (name, work) => {
        const turn = (tails.get(name) ?? Promise.resolve()).then(work)
        tails.set(
          name,
          turn.catch(() => undefined),
        )
        return turn
      },
      tell: () => undefined,
    })
    await local.refresh()
    local.loop.stop()
    return local
  }
  return { database, second, standing, tab, outbox: new IdbOutbox(database, 'phone') }
}

const note = (text: string) => ({
  kind: 'note.written' as const,
  body: { text, purpose: 'note' as const },
  author: 'R. Vale',
})
const SAMPLER: AsWhom = { role: 'sampler', name: 'Phone 2' }
const all = (server: FakeServer) => server.ledger.read(investigation, { after: 0, limit: 1000 })
const kinds = async ({ outbox }: { outbox: IdbOutbox }) =>
  (await outbox.pending(investigation)).map(({ entry }) => `${entry.deviceSequence} ${entry.kind}`)

test('[SYN20] before it is known as whom a device writes it says so nowhere, and nothing it wrote is sent', async () => {
  const server = new FakeServer()
  const here = await browser(server)
  const local = await here.tab()
  await local.store.propose(note('one'))
  await local.store.proposeAll([note('two'), note('three')], { author: 'R. Vale' })
  await local.exchangeOnce()
  expect(server.pushes).toBe(0)
  expect(await kinds(here)).toEqual(['2 note.written', '3 note.written', '4 note.written'])
  expect(local.store.snapshot().sync.pending).toBe(3)
})

test('[SYN20] once it has joined, all that waits goes, after the entry by which it joins in the role it was let in with', async () => {
  const server = new FakeServer()
  const here = await browser(server)
  const local = await here.tab()
  for (const text of ['one', 'two']) await local.store.propose(note(text))
  await local.exchangeOnce()
  here.standing.says = SAMPLER
  server.cut = 'before'
  // a cut, or a kill, in between adds no second one
  await local.exchangeOnce()
  await (await here.tab()).exchangeOnce()
  server.cut = 'no'
  await local.exchangeOnce()
  here.standing.known = SAMPLER
  await local.store.propose(note('three'))
  await local.exchangeOnce()
  const links = await all(server)
  expect(links.map(({ entry }) => `${entry.deviceSequence} ${entry.kind}`)).toEqual([
    '1 device.joined',
    ...[2, 3, 4].map((n) => `${n} note.written`),
  ])
  expect(links[0]?.entry.body).toMatchObject({ role: 'sampler', name: 'Phone 2' })
  expect(verifyChain(links, { investigation, checkSignature })).toMatchObject({ sound: true, signed: 4, unsigned: 0 })
  expect(local.store.snapshot().sync).toMatchObject({ pending: 0, refused: [] })
  expect(local.store.snapshot().state.brief.notes.map(({ body }) => body.text)).toEqual(['one', 'two', 'three'])
})

test('[SYN20] a role it said before, and that the server has not got, is said anew', async () => {
  const server = new FakeServer()
  const here = await browser(server)
  here.standing.known = { role: 'lead' }
  const local = await here.tab()
  server.cut = 'before'
  await local.store.propose(note('one'))
  await local.exchangeOnce()
  here.standing.known = SAMPLER
  server.cut = 'no'
  await local.exchangeOnce()
  expect((await all(server)).map(({ entry }) => `${entry.deviceSequence} ${entry.kind}`)).toEqual([
    '1 device.joined',
    '2 note.written',
  ])
  expect((await all(server))[0]?.entry.body).toMatchObject({ role: 'sampler' })
})

test('[OFF15] [SYN20] the role it said before leaves the second copy too', async () => {
  const server = new FakeServer()
  const here = await browser(server)
  here.standing.known = { role: 'lead' }
  const local = await here.tab()
  server.cut = 'before'
  await local.store.propose(note('one'))
  here.standing.known = SAMPLER
  await local.exchangeOnce()
  const kept = (await here.second.entries()).toSorted((a, b) => a.deviceSequence - b.deviceSequence)
  expect(kept).toEqual((await here.outbox.pending(investigation)).map(({ entry }) => entry))
  expect(kept.map(({ kind }) => kind)).toEqual(['device.joined', 'note.written'])
  expect(kept[0]?.body).toMatchObject({ role: 'sampler' })
})

test('[SYN20] what a device wrote that then joined as a reader stays on it, with that reason', async () => {
  const server = new FakeServer()
  const here = await browser(server)
  const local = await here.tab()
  await local.store.propose(note('one'))
  here.standing.says = { role: 'reader', name: 'Tablet' }
  await local.exchangeOnce()
  expect(await all(server)).toEqual([])
  expect(local.store.snapshot().sync.refused).toMatchObject([
    { entry: { kind: 'note.written' }, issues: [{ path: 'device', received: expect.stringContaining('reader') }] },
  ])
})
