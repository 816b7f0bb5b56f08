import 'fake-indexeddb/auto'
import { afterEach, expect, test, vi } from 'vitest'
import { type DeviceDatabase, openDatabase } from '../ledger/database.ts'
import { IdbLedger } from '../ledger/idb-ledger.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import type { Still } from '../opening/still.ts'
import { FakeServer } from './fake-server.fixture.ts'
import { LocalInvestigation } from './open-investigation.ts'
import { OpenInvestigations } from './open-investigations.ts'
import { SignatureWatch } from './signature-watch.ts'
import { uuid7 } from './uuid7.ts'

const ID = 'marram-house'
const DEVICE = 'phone'
const STILL: Still = { build: 'b1', place: `/i/${ID}/brief`, width: 390, settings: '[]', html: '<main></main>' }
const REASON = 'its signature does not fit'
let databases = 0

afterEach(() => vi.restoreAllMocks())

/** Tabs of one browser whose server does not answer yet; no entry holds where `unsound`. */
async function browser({ unsound = false } = {}) {
  const database = await openDatabase(`stills-${(databases += 1)}`)
  const server = new FakeServer()
  server.cut = 'before'
  const tails = new Map<string, Promise<unknown>>()
  const parts = {
    database,
    device: DEVICE,
    now: () => ({ instant: new Date(Date.UTC(2026, 2, 2, 8)).toISOString(), offset: '+00:00' }),
    newId: () => uuid7(),
    server,
    alone: <T>(name: string, work: () => Promise<T>): Promise<T> => {
      const turn = (tails.get(name) ?? Promise.resolve()).then(work)
      tails.set(
        name,
        turn.catch(() => undefined),
      )
      return turn
    },
    signatures: new SignatureWatch({
      database,
      verify: async (_, { after = { sequence: 0, hash: '' } }) =>
        unsound
          ? { sound: false, sequence: after.sequence + 1, reason: REASON, lastSound: { investigation: ID, ...after } }
          : { sound: true, head: { investigation: ID, ...after } },
    }),
  }
  const tab = async () => {
    const local = new LocalInvestigation(ID, { ...parts, tell: () => undefined })
    await local.refresh()
    return local
  }
  return { database, server, parts, tab }
}

const note = (text: string) => ({
  kind: 'note.written' as const,
  body: { text, purpose: 'note' as const },
  author: 'R. Vale',
})
const shown = (local: LocalInvestigation) => local.store.snapshot().state.brief.notes.map(({ body }) => body.text)
const draw = (local: LocalInvestigation) => ({ still: STILL, version: local.store.snapshot().version })
const inDatabase = async (database: DeviceDatabase) => (await database.get('device', `still ${ID}`)) !== undefined

async function written(local: LocalInvestigation, text: string): Promise<string> {
  const proposed = await local.store.propose(note(text))
  if (!proposed.ok) throw new TypeError('Cannot go on because the note was not kept')
  local.loop.stop()
  return proposed.entry.id
}

test('[OFF17] the same screen is kept again once what was written here is confirmed, and only then', async () => {
  const { database, server, tab } = await browser()
  const local = await tab()
  const id = await written(local, 'one')
  const keptOf = await local.keepStill(draw(local))
  expect(keptOf).toEqual({ links: 0, waiting: [id], refused: [] })
  expect(await local.keepStill({ ...draw(local), keptOf })).toBeUndefined()
  const { version } = local.store.snapshot()
  server.cut = 'no'
  await local.exchangeOnce()
  expect(local.store.snapshot().version, 'nothing else is shown').toBe(version)
  expect(await inDatabase(database)).toBe(false)
  expect(await local.keepStill({ ...draw(local), keptOf })).toEqual({ links: 1, waiting: [], refused: [] })
  expect(await inDatabase(database)).toBe(true)
})

test('[OFF18] between a refusal and its taking up, a screen that shows the entry is not kept', async () => {
  const { database, tab } = await browser()
  const local = await tab()
  const id = await written(local, 'one')
  await new IdbOutbox(database, DEVICE).refuse(id, [{ path: '', expected: 'another', received: 'this' }])
  expect(await local.keepStill(draw(local))).toBeUndefined()
  expect(await inDatabase(database)).toBe(false)
  await local.refresh()
  expect(await local.keepStill(draw(local))).toEqual({ links: 0, waiting: [id], refused: [id] })
})

test('[OFF18] [SYN31] what one tab finds not to hold is said in the others, and none keeps a screen of it', async () => {
  const { database, server, parts } = await browser({ unsound: true })
  server.cut = 'no'
  const [left, right] = [new OpenInvestigations(parts), new OpenInvestigations(parts)]
  const writer = new LocalInvestigation(ID, { ...parts, tell: () => undefined })
  await written(writer, 'one')
  const { signatures: _, ...unchecked } = parts
  await new LocalInvestigation(ID, { ...unchecked, tell: () => undefined }).exchangeOnce()
  const [here, there] = [await left.read(ID), await right.read(ID)]
  if (here === undefined || there === undefined) throw new TypeError('Cannot go on because it is not open')
  // before the other tab has heard anything
  await parts.signatures.check(ID)
  expect(await there.keepStill(draw(there))).toBeUndefined()
  expect(await inDatabase(database)).toBe(false)
  await here.exchangeOnce()
  // only a tab that is never told runs into the limit
  const told = () => expect(there.store.snapshot().sync.unsound).toMatchObject({ sequence: 1, reason: REASON })
  await vi.waitFor(told, { timeout: 20_000 })
  for (const local of [here, there]) local.loop.stop()
}, 30_000)

test('[SYN9] an entry confirmed by another tab while this one takes up is not missing from what is shown', async () => {
  const { server, tab } = await browser()
  const [left, right] = [await tab(), await tab()]
  await written(left, 'one')
  await right.refresh()
  server.cut = 'no'
  const read = IdbLedger.prototype.read
  const reading = vi.spyOn(IdbLedger.prototype, 'read')
  // once, between the read of the links and whatever is read next
  reading.mockImplementationOnce(async function stale(this: IdbLedger, ...asked: Parameters<IdbLedger['read']>) {
    const links = await read.apply(this, asked)
    await left.exchangeOnce()
    return links
  })
  await right.refresh()
  expect(shown(right)).toEqual(['one'])
  for (const local of [left, right]) local.loop.stop()
})

test('[SYN9] what came after the links were read early is shown with them', async () => {
  const { server, tab } = await browser()
  const left = await tab()
  await written(left, 'one')
  globalThis.rillmarkEarly = { investigation: ID, links: Promise.resolve(() => []) }
  server.cut = 'no'
  await left.exchangeOnce()
  const right = await tab()
  expect(shown(right)).toEqual(['one'])
  left.loop.stop()
})
