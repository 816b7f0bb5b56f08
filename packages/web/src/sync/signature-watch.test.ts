import 'fake-indexeddb/auto'
import { emptyHead, headAfter, type Link, linkEntries } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { IdbLedger } from '../ledger/idb-ledger.ts'
import { SignatureWatch } from './signature-watch.ts'
import { verifyQuickly } from './verify-quickly.ts'

const INVESTIGATION = 'marram-house'
const RECEIVED = '2026-03-02T12:00:00.000Z'
let databases = 0

async function copy() {
  const database = await openDatabase(`watch-${(databases += 1)}`)
  const ledger = new IdbLedger(database)
  const looked: number[] = []
  const watch = () =>
    new SignatureWatch({
      database,
      verify: (links, expected) => {
        looked.push(links.length)
        return verifyQuickly(links, expected)
      },
    })
  const pulled = async (entries: readonly Entry[], received = RECEIVED): Promise<readonly Link[]> => {
    const links = linkEntries(await ledger.head(INVESTIGATION), { entries, received })
    await ledger.commit(links)
    return links
  }
  return { database, ledger, watch, pulled, looked }
}

const written = () => {
  const [key, server] = [testKey('phone'), testKey('server')]
  const phone = entryMaker(INVESTIGATION, { device: 'phone' })
  const desk = entryMaker(INVESTIGATION, { device: 'server' })
  return {
    joined: key.sign(phone.make('device.joined', { name: 'Phone', role: 'sampler', key: key.key })),
    note: (text: string) => key.sign(phone.make('note.written', { text, purpose: 'note' })),
    server: server.sign(desk.make('device.joined', { name: 'Server', role: 'server', key: server.key })),
    revoked: server.sign(desk.make('device.revoked', { device: 'phone', reason: 'lost' })),
  }
}

test('[SYN31] each link is looked at once, over reloads, by the keys that joined before it', async () => {
  const { watch, pulled, looked } = await copy()
  const { joined, note } = written()
  await pulled([joined, note('one')])
  expect(await watch().check(INVESTIGATION)).toBeUndefined()
  await pulled([note('two')])
  expect(await watch().check(INVESTIGATION)).toBeUndefined()
  expect(await watch().check(INVESTIGATION)).toBeUndefined()
  expect(looked).toEqual([2, 1])
})

test('[SYN31] what was looked at later is held against all that was before it, also after a version that kept less of it', async () => {
  const { database, watch, pulled, looked } = await copy()
  const { joined, note } = written()
  const late = note('late')
  await pulled([joined, note('one')])
  expect(await watch().check(INVESTIGATION)).toBeUndefined()
  const kept = JSON.parse((await database.get('device', `signatures ${INVESTIGATION}`)) ?? '') as object
  await database.put(
    'device',
    JSON.stringify({ ...kept, received: undefined, numbers: undefined }),
    `signatures ${INVESTIGATION}`,
  )
  expect(await watch().check(INVESTIGATION)).toBeUndefined()
  expect(looked).toEqual([2, 2])
  await pulled([late])
  expect(await watch().check(INVESTIGATION)).toMatchObject({ sequence: 3, reason: 'device number 2 does not follow 3' })

  const other = await copy()
  const again = written()
  await other.pulled([again.joined])
  expect(await other.watch().check(INVESTIGATION)).toBeUndefined()
  await other.pulled([again.note('earlier')], '2026-03-01T12:00:00.000Z')
  expect(await other.watch().check(INVESTIGATION)).toMatchObject({ reason: 'it was received before its forerunner' })
})

test('[SYN31] the first entry that does not hold is named with the reason, and again after a reload', async () => {
  const { watch, pulled, looked } = await copy()
  const { joined, note } = written()
  await pulled([joined, note('one')])
  await watch().check(INVESTIGATION)
  await pulled([note('two'), { ...note('three'), author: 'S. Other' }, note('four')])
  const unsound = { sequence: 4, reason: 'its signature by phone does not fit what it says' }
  expect(await watch().check(INVESTIGATION)).toMatchObject(unsound)
  expect(await watch().known(INVESTIGATION)).toMatchObject(unsound)
  expect(looked).toEqual([2, 3])
})

test('[SYN31] what a revoked device wrote afterwards does not hold, also where it was revoked in an earlier part', async () => {
  const { watch, pulled } = await copy()
  const { joined, note, server, revoked } = written()
  await pulled([joined, server, revoked])
  expect(await watch().check(INVESTIGATION)).toBeUndefined()
  await pulled([note('afterwards')])
  expect(await watch().check(INVESTIGATION)).toMatchObject({ sequence: 4, reason: 'phone was revoked before it' })
})

test('[SYN31] a copy that was let go and fetched anew is looked at anew', async () => {
  const { ledger, watch, pulled, looked } = await copy()
  const { joined, note } = written()
  const forged = { ...note('one'), author: 'S. Other' }
  await pulled([joined, forged])
  expect(await watch().check(INVESTIGATION)).toMatchObject({ sequence: 2 })
  await ledger.forget(INVESTIGATION)
  expect(await watch().known(INVESTIGATION)).toBeUndefined()
  const head = headAfter(emptyHead(INVESTIGATION), await pulled([joined, note('two')]))
  expect(await watch().check(INVESTIGATION)).toBeUndefined()
  expect(head.sequence).toBe(2)
  expect(looked).toEqual([2, 2])
})
