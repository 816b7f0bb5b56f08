import 'fake-indexeddb/auto'
import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { recordAgain } from '../record/record-again.ts'
import { deviceKey } from './device-key.ts'
import { keepEnrolled, readEnrolled } from './enrolled.ts'
import { FakeServer } from './fake-server.fixture.ts'
import { becomeAnother, deviceId } from './identity.ts'
import { LocalInvestigation } from './open-investigation.ts'
import { SignatureWatch } from './signature-watch.ts'
import { uuid7 } from './uuid7.ts'
import { verifyQuickly } from './verify-quickly.ts'

const INVESTIGATION = 'marram-house'
const AUTHOR = 'R. Vale'
const PHONE = { name: 'Phone 2', role: 'sampler' } as const
let databases = 0

/** A browser that can be loaded again; what it keeps stays. `keyless` while it has no key. */
async function browser(server: FakeServer) {
  const database = await openDatabase(`anew-${(databases += 1)}`)
  const day = { minute: 0 }
  await keepEnrolled(database, PHONE)
  let tail: Promise<unknown> = Promise.resolve()
  const load = async () => {
    const local = new LocalInvestigation(INVESTIGATION, {
      database,
      device: await deviceId(database),
      now: () => ({ instant: new Date(Date.UTC(2026, 2, 2, 9, (day.minute += 1))).toISOString(), offset: '+00:00' }),
      newId: () => uuid7(),
      signer: async () => {
        const key = await deviceKey(database)
        return key === undefined ? undefined : { key, as: await readEnrolled(database) }
      },
      signatures: new SignatureWatch({ database, verify: (links, expected) => verifyQuickly(links, expected) }),
      server,
      alone: (_, work) => {
        const turn = tail.then(work)
        tail = turn.catch(() => undefined)
        return turn
      },
      tell: () => undefined,
    })
    await local.refresh()
    local.loop.stop()
    return local
  }
  return { database, load }
}

const note = (text: string) => ({
  kind: 'note.written' as const,
  body: { text, purpose: 'note' as const },
  author: AUTHOR,
})
/** As the real server answers for each entry of a device that is out. */
function revoke(server: FakeServer, device: string): void {
  const { push } = server
  Object.assign(server, {
    push: async (...[investigation, entries, more]: Parameters<typeof push>) => {
      const out = entries.filter((entry) => entry.device === device)
      const pushed = await push(
        investigation,
        entries.filter((entry) => entry.device !== device),
        more,
      )
      const issues = [{ path: 'device', expected: 'a device that is not revoked', received: `${device}, revoked` }]
      return { ...pushed, refused: [...pushed.refused, ...out.map(({ id }) => ({ id, issues }))] }
    },
  })
}
const all = (server: FakeServer) => server.ledger.read(INVESTIGATION, { after: 0, limit: 1000 })

test('[SYN32] [OFF20] after a revocation and a new name, what was not sent is refused, and recorded again with its own time', async () => {
  const server = new FakeServer()
  const { database, load } = await browser(server)
  const before = await load()
  await before.store.propose(note('sent'))
  await before.exchangeOnce()
  const lost = await before.store.propose(note('never sent'))
  const first = lost.ok ? lost.entry : undefined
  expect(first?.instant).toBe('2026-03-02T09:03:00.000Z')

  const former = await deviceId(database)
  await becomeAnother(database)
  await keepEnrolled(database, PHONE)
  revoke(server, former)
  const after = await load()
  await after.exchangeOnce()
  const { sync } = after.store.snapshot()
  expect(sync.refused.map(({ entry, issues }) => [entry.id, issues[0]?.path])).toEqual([[first?.id, 'device']])
  expect(sync.pending).toBe(0)
  expect((await all(server)).length).toBe(2)

  const propose: Parameters<typeof recordAgain>[1] = (kind, body, options) =>
    after.store.propose({ kind, body, author: AUTHOR, ...options })
  const refused = sync.refused.map(({ entry }) => entry)
  expect(await recordAgain(refused, propose)).toEqual({ done: 1, left: 0 })
  await after.exchangeOnce()
  expect(after.store.snapshot().sync.refused).toEqual([])
  const links = await all(server)
  expect(links.map(({ entry }) => [entry.kind, entry.instant])).toEqual([
    ['device.joined', '2026-03-02T09:01:00.000Z'],
    ['note.written', '2026-03-02T09:02:00.000Z'],
    ['device.joined', expect.any(String)],
    ['note.written', expect.any(String)],
    ['note.written', first?.instant],
  ])
  expect(links[3]?.entry.body).toMatchObject({ text: expect.stringContaining('before it was revoked') })
  expect(verifyChain(links, { investigation: INVESTIGATION, checkSignature })).toMatchObject({ sound: true, signed: 5 })
  expect((await load()).store.snapshot().state.brief.notes).toHaveLength(3)
})

test('[SYN32] an entry that had reached the server before the revocation is not refused but let go as sent', async () => {
  const server = new FakeServer()
  const { database, load } = await browser(server)
  const before = await load()
  await before.store.propose(note('sent, and the answer lost'))
  const { push } = server
  Object.assign(server, {
    push: async (...given: Parameters<typeof push>) => {
      server.cut = 'after'
      return push(...given)
    },
  })
  await before.exchangeOnce()
  expect(before.store.snapshot().sync.pending).toBe(2)
  server.cut = 'no'
  Object.assign(server, { push })
  revoke(server, await deviceId(database))
  await becomeAnother(database)
  const after = await load()
  await after.exchangeOnce()
  expect(after.store.snapshot().sync).toMatchObject({ pending: 0, refused: [] })
  expect(await all(server)).toHaveLength(2)
})

test('[SYN31] an entry the server gives out with a signature that does not hold is said, and said again after a reload', async () => {
  const server = new FakeServer()
  const writer = await (await browser(server)).load()
  await writer.store.propose(note('as it was written'))
  await writer.exchangeOnce()
  const [joined, written] = (await all(server)).map(({ entry }) => entry)
  if (joined === undefined || written === undefined) throw new RangeError('two entries are needed')
  server.ledger = new FakeServer().ledger
  const forged = { ...written, author: 'S. Other' }
  const received = '2026-03-02T12:00:00.000Z'
  await server.ledger.commit(linkEntries(emptyHead(INVESTIGATION), { entries: [joined, forged], received }))
  const { load } = await browser(server)
  const reader = await load()
  await reader.exchangeOnce()
  const unsound = () => reader.store.snapshot().sync.unsound
  await expect.poll(() => unsound()?.sequence).toBe(2)
  expect(unsound()?.reason).toContain('does not fit what it says')
  const again = await load()
  again.follow()()
  await expect.poll(() => again.store.snapshot().sync.unsound?.sequence).toBe(2)
})
