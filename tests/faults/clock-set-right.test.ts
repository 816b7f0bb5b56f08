import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { afterAll, expect, test } from 'vitest'
import { InjectedServer } from './injected-server.ts'
import { OfflineDevice } from './offline-device.ts'
import type { ServerPort } from '../../packages/web/src/sync/server-port.ts'
import { Unreachable } from '../../packages/web/src/sync/server-port.ts'

const investigation = 'faults-clock'
const [MINUTE_MS, HOUR_MS] = [60_000, 3_600_000]
const ENTRIES = 96
const BETWEEN_MS = 30 * MINUTE_MS

const server = new InjectedServer()
afterAll(() => server.close())

/** Of the notes in the record, in the order they were written in: by how much they came out later than they were. */
async function lateness(trueMs: readonly number[]): Promise<number[]> {
  const record = await server.record(investigation)
  const entries = entriesOf(await record.read(investigation, { after: 0, limit: 10_000 }))
  const notes = entries.filter(({ kind }) => kind === 'note.written')
  return notes.map(({ instant }, index) => Date.parse(instant) - (trueMs[index] ?? 0))
}

test(`[CLK1] [CLK4] ${ENTRIES} entries over two days by a clock a day ahead, set right just before they are sent in batches: order and time between them are right`, async () => {
  await server.reopen()
  let now = Date.now() - ENTRIES * BETWEEN_MS
  const phone = new OfflineDevice({ name: 'phone-1', investigation, now: () => now })
  phone.clockAheadMs = 24 * HOUR_MS
  await phone.join()
  const trueMs: number[] = []
  for (let n = 0; n < ENTRIES; n += 1) {
    now += BETWEEN_MS
    trueMs.push(now)
    await phone.write('note.written', { text: `note ${n}`, purpose: 'note' })
  }
  // the network sets the clock right, and only then lets entries through
  phone.clockAheadMs = 0
  let pushes = 0
  const push: ServerPort['push'] = (id, entries, told) => {
    pushes += 1
    if (pushes === 2) throw new Unreachable('cut between the batches')
    return server.push(id, { entries, deviceNow: new Date().toISOString(), ...told })
  }
  const port: ServerPort = { push, pull: server.pull.bind(server) }
  expect((await phone.sync(port)).kind).toBe('unreachable')
  // what is written by the right clock meanwhile is no part of it
  now = Date.now()
  trueMs.push(now)
  await phone.write('note.written', { text: 'by the right clock', purpose: 'note' })
  expect(await phone.sync(port)).toEqual({ kind: 'done' })
  expect(pushes).toBe(4)
  const late = await lateness(trueMs)
  expect(late).toHaveLength(ENTRIES + 1)
  const [first = Number.NaN] = late
  expect(late.slice(0, ENTRIES)).toEqual(Array<number>(ENTRIES).fill(first))
  expect(Math.abs(first)).toBeLessThan(MINUTE_MS)
  expect(late.at(-1)).toBe(0)
})
