import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { IdbLedger } from '../ledger/idb-ledger.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import { FakeServer } from './fake-server.fixture.ts'
import { LocalInvestigation } from './open-investigation.ts'
import { uuid7 } from './uuid7.ts'

let databases = 0

/** One browser: tabs share its database, device id and locks. */
async function browser(server: FakeServer, device = 'browser-1') {
  const database = await openDatabase(`local-${(databases += 1)}`)
  const tails = new Map<string, Promise<unknown>>()
  const alone = <T>(name: string, work: () => Promise<T>): Promise<T> => {
    const turn = (tails.get(name) ?? Promise.resolve()).then(work)
    tails.set(
      name,
      turn.catch(() => undefined),
    )
    return turn
  }
  const now = () => ({ instant: new Date(Date.UTC(2026, 2, 2, 8)).toISOString(), offset: '+00:00' })
  const tab = async () => {
    const local = new LocalInvestigation('marram-house', {
      database,
      device,
      now,
      newId: () => uuid7(),
      server,
      alone,
      tell: () => undefined,
    })
    await local.refresh()
    return local
  }
  return { database, tab }
}

const note = (text: string) => ({
  kind: 'note.written' as const,
  body: { text, purpose: 'note' as const },
  author: 'R. Vale',
})
const shown = (local: LocalInvestigation) => local.store.snapshot().state.brief.notes.map(({ body }) => body.text)

test('[SYN7] what was proposed without a network is there after a reload, and goes to the server later', async () => {
  const server = new FakeServer()
  server.cut = 'before'
  const { tab } = await browser(server)
  const first = await tab()
  await first.store.propose(note('one'))
  await first.store.propose(note('two'))
  await first.loop.nudge()
  expect(first.store.snapshot().sync).toMatchObject({
    words: 'No connection · 2 entries wait, safe here',
    pending: 2,
  })
  first.loop.stop()
  const again = await tab()
  expect(shown(again)).toEqual(['one', 'two'])
  server.cut = 'no'
  await again.loop.nudge()
  expect(again.store.snapshot().sync).toEqual({ words: 'All 2 entries are on the server', pending: 0, refused: [] })
  expect(shown(again)).toEqual(['one', 'two'])
  again.loop.stop()
})

test('[SYN8] two tabs that write at once give out no number twice, and each takes up what the other wrote', async () => {
  const server = new FakeServer()
  server.cut = 'before'
  const { tab } = await browser(server)
  const [left, right] = [await tab(), await tab()]
  const proposed = await Promise.all(
    Array.from({ length: 10 }, (_, n) => (n % 2 === 0 ? left : right).store.propose(note(`note ${n}`))),
  )
  expect(proposed.map((each) => each.ok && each.entry.deviceSequence).sort((a, b) => Number(a) - Number(b))).toEqual([
    1, 2, 3, 4, 5, 6, 7, 8, 9, 10,
  ])
  server.cut = 'no'
  await Promise.all([left.loop.nudge(), right.loop.nudge()])
  await Promise.all([left.refresh(), right.refresh()])
  expect(shown(left)).toHaveLength(10)
  expect(shown(right)).toEqual(shown(left))
  expect((await server.ledger.head('marram-house')).sequence).toBe(10)
  left.loop.stop()
  right.loop.stop()
})

test('[SYN9] where the server fixed another order, what is shown follows the record', async () => {
  const server = new FakeServer()
  const [ours, theirs] = [
    await (await browser(server, 'browser-1')).tab(),
    await (await browser(server, 'browser-2')).tab(),
  ]
  server.cut = 'before'
  await ours.store.propose(note('ours'))
  await ours.loop.nudge()
  server.cut = 'no'
  await theirs.store.propose(note('theirs'))
  await theirs.loop.nudge()
  expect(shown(ours)).toEqual(['ours'])
  await ours.loop.nudge()
  expect(shown(ours)).toEqual(['theirs', 'ours'])
  ours.loop.stop()
  theirs.loop.stop()
})

test('[SYN10] a refused entry is listed with its reasons, left out of what is derived, and goes when a person settles it', async () => {
  const server = new FakeServer()
  const { database, tab } = await browser(server)
  const local = await tab()
  const proposed = await local.store.propose(note('one'))
  if (!proposed.ok) throw new Error('the note was refused')
  await new IdbOutbox(database, 'browser-1').refuse(proposed.entry.id, [{ path: 'body', expected: 'x', received: 'y' }])
  await local.refresh()
  expect(local.store.snapshot().sync).toMatchObject({
    words: '1 entry was refused: see Record',
    refused: [{ entry: { id: proposed.entry.id }, issues: [{ path: 'body' }] }],
  })
  expect(shown(local)).toEqual([])
  await local.settle(proposed.entry.id)
  expect(local.store.snapshot().sync.refused).toEqual([])
  local.loop.stop()
})

test('[OFF4] a copy that was let go elsewhere is not fetched again by a tab that still shows it', async () => {
  const server = new FakeServer()
  const { database, tab } = await browser(server)
  const local = await tab()
  await local.store.propose(note('one'))
  await local.loop.nudge()
  local.loop.stop()
  const ledger = new IdbLedger(database)
  await ledger.forget('marram-house')
  expect((await local.exchangeOnce()).kind).toBe('unreachable')
  expect((await ledger.head('marram-house')).sequence).toBe(0)
})
