import 'fake-indexeddb/auto'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { deviceKey } from './device-key.ts'
import type { AsWhom } from './enrolled.ts'
import { FakeServer } from './fake-server.fixture.ts'
import { LocalInvestigation } from './open-investigation.ts'
import { Unreachable } from './server-port.ts'
import { uuid7 } from './uuid7.ts'

const NOON = Date.UTC(2026, 2, 2, 12)
let databases = 0

/** One device with a key of its own, signing by Web Crypto; its clock may be wrong. */
async function device(
  server: FakeServer,
  { name, aheadS = 0, enrolled }: { name: string; aheadS?: number; enrolled?: AsWhom },
) {
  const database = await openDatabase(`signing-${(databases += 1)}`)
  const key = await deviceKey(database)
  let tail: Promise<unknown> = Promise.resolve()
  let trueMs = NOON - 3_600_000
  const measured = { aheadS: 0 }
  const tab = async () => {
    const local = new LocalInvestigation('marram-house', {
      database,
      device: name,
      now: () => ({ instant: new Date((trueMs += 60_000) + aheadS * 1000).toISOString(), offset: '+00:00' }),
      newId: () => uuid7(),
      signer: async () => (key === undefined ? undefined : { key, as: enrolled ?? { role: 'lead' } }),
      clockAheadS: () => measured.aheadS,
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
  return { tab, measured }
}

/** Exchanges once. The loop is stopped, so that nothing happens by itself. */
const sync = async (local: LocalInvestigation) => {
  await local.exchangeOnce()
}
const note = (text: string) => ({
  kind: 'note.written' as const,
  body: { text, purpose: 'note' as const },
  author: 'R. Vale',
})
const aCase = (classification: BodyOf<'case.recorded'>['classification']) => ({
  kind: 'case.recorded' as const,
  body: { code: 'C1', classification, link: 'not judged' as const, isolate: 'not known' as const },
  author: 'R. Vale',
})
const all = (server: FakeServer) => server.ledger.read('marram-house', { after: 0, limit: 1000 })

test('[SYN16] a device with a key joins before the first it writes, once over all its tabs, and signs everything', async () => {
  const server = new FakeServer()
  const { tab } = await device(server, { name: 'phone', enrolled: { name: 'Phone 2', role: 'sampler' } })
  const [left, right] = [await tab(), await tab()]
  await Promise.all([left.store.propose(note('one')), right.store.propose(note('two'))])
  await left.store.proposeAll([note('three'), note('four')], { author: 'R. Vale' })
  await sync(left)
  const links = await all(server)
  expect(links.map(({ entry }) => entry.kind)).toEqual(['device.joined', ...Array<string>(4).fill('note.written')])
  expect(links[0]?.entry).toMatchObject({ body: { name: 'Phone 2', role: 'sampler' }, deviceSequence: 1, seen: 0 })
  expect(verifyChain(links, { investigation: 'marram-house', checkSignature })).toMatchObject({
    sound: true,
    signed: 5,
    unsigned: 0,
  })
})

test('[SYN16] a reader is told that it writes nothing, and nothing is kept', async () => {
  const server = new FakeServer()
  const { tab } = await device(server, { name: 'phone', enrolled: { name: 'Phone 2', role: 'reader' } })
  const local = await tab()
  expect(await local.store.propose(note('one'))).toMatchObject({ ok: false, issues: [{ path: 'device' }] })
  expect(local.empty).toBe(true)
})

test('[SYN17] an entry says how much of the record its device held when it was written', async () => {
  const server = new FakeServer()
  const [desk, phone] = [
    await (await device(server, { name: 'desk' })).tab(),
    await (await device(server, { name: 'phone' })).tab(),
  ]
  await desk.store.propose(note('one'))
  await sync(desk)
  await sync(phone)
  await phone.store.propose(note('two'))
  await sync(phone)
  await desk.store.propose(note('three'))
  await sync(desk)
  expect((await all(server)).map(({ entry }) => [entry.device, entry.seen])).toEqual([
    ['desk', 0],
    ['desk', 0],
    ['phone', 2],
    ['phone', 2],
    ['desk', 2],
  ])
})

test('[SYN18] a second account leaves the outbox once it is in the record, is shown as one, and settled by a person on any device', async () => {
  const server = new FakeServer()
  const [desk, phone] = [
    await (await device(server, { name: 'desk' })).tab(),
    await (await device(server, { name: 'phone' })).tab(),
  ]
  await desk.store.propose(aCase('confirmed'))
  const second = await phone.store.propose(aCase('suspected'))
  if (!second.ok) throw new Error('the phone took its own entry for wrong')
  await sync(desk)
  server.cut = 'after'
  await sync(phone)
  expect(phone.store.snapshot().sync.pending).toBe(2)
  server.cut = 'no'
  await sync(phone)
  expect(phone.store.snapshot().sync).toMatchObject({ pending: 0, refused: [] })
  const { state } = phone.store.snapshot()
  expect(state.cases.cases.get('C1')?.body.classification).toBe('confirmed')
  expect(state.contests.contested.get(second.entry.id)?.original).toEqual(second.entry)
  await phone.store.propose({
    kind: 'contest.settled',
    body: { contested: second.entry.id, decision: 'second stands', reason: 'the phone was there' },
    author: 'R. Vale',
  })
  await sync(phone)
  await sync(desk)
  for (const each of [desk, phone])
    expect(each.store.snapshot().state.cases.cases.get('C1')?.body.classification).toBe('suspected')
  expect(desk.store.snapshot().state).toEqual(phone.store.snapshot().state)
  expect(verifyChain(await all(server), { investigation: 'marram-house', checkSignature })).toMatchObject({
    sound: true,
    unsigned: 0,
  })
})

test('[SYN18] a second account whose contest came in earlier, and that was not let go of yet, counts for nothing', async () => {
  const server = new FakeServer()
  const [desk, phone] = [
    await (await device(server, { name: 'desk' })).tab(),
    await (await device(server, { name: 'phone' })).tab(),
  ]
  await desk.store.propose(aCase('confirmed'))
  await phone.store.propose(aCase('suspected'))
  await sync(desk)
  // the entry is in the record; the answer that says under which number never comes
  const push = server.push
  server.push = async (...given) => {
    await push(...given)
    throw new Unreachable('the answer was lost')
  }
  await sync(phone)
  await sync(phone)
  // another tab wrote: what is kept is read again
  await phone.refresh()
  const { state, sync: standing } = phone.store.snapshot()
  expect(state.cases.cases.get('C1')?.body.classification).toBe('confirmed')
  expect(state.record.entries.filter(({ kind }) => kind === 'case.recorded')).toHaveLength(1)
  expect(standing.pending).toBe(0)
})

test('[SYN19] by a clock a day ahead, what is shown has the right times before and after it is sent, and the link keeps what was written', async () => {
  const server = new FakeServer()
  const [DAY, name] = [86_400, 'phone']
  const { tab, measured } = await device(server, { name, aheadS: DAY })
  const local = await tab()
  const first = await local.store.propose(note('one'))
  server.deviceNow = new Date(NOON + DAY * 1000).toISOString()
  await sync(local)
  measured.aheadS = DAY
  await local.refresh()
  const second = await local.store.propose(note('two'))
  const times = () => local.store.snapshot().state.brief.notes.map(({ instant }) => instant)
  const right = [first, second].map((each) =>
    each.ok ? new Date(Date.parse(each.entry.instant) - DAY * 1000).toISOString() : '',
  )
  expect(times()).toEqual(right)
  expect(local.store.snapshot().sync.clock).toBe('This device’s clock is 1 d ahead')
  await sync(local)
  expect(times()).toEqual(right)
  const links = await all(server)
  expect(links.map(({ clockAheadS }) => clockAheadS)).toEqual([DAY, DAY, DAY])
  expect(links.at(-1)?.entry).toEqual(second.ok ? second.entry : undefined)
})
