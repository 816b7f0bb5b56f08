import { thumbprint } from '@rillmark/casebook/devices/signed-text.ts'
import { MemoryLedger } from '@rillmark/casebook/ledger/memory-ledger.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { expect, test } from 'vitest'
import { Records } from './records.ts'

const NOW = '2026-03-02T12:00:00.000Z'
const at = (hours: number, seconds = 0): string =>
  new Date(Date.parse(NOW) + hours * 3_600_000 + seconds * 1000).toISOString()
const { key, signText } = testKey('the server')
const SERVER = { publicKey: key, thumbprint: thumbprint(key), sign: signText }

function opened() {
  const ledger = new MemoryLedger()
  const records = new Records(ledger, { now: () => NOW, key: () => SERVER })
  const clocks = async () =>
    (await ledger.read('marram-house', { after: 0, limit: 99 })).map(({ clockAheadS }) => clockAheadS)
  return { records, clocks }
}

test('[SRV22] after twenty second accounts the rest of a batch is left undecided, and taken when it is sent again', async () => {
  const { records } = opened()
  const cases = (device: string) => {
    const { make } = entryMaker('marram-house', { device })
    const own = { classification: 'probable', link: 'not judged', isolate: 'not known' } as const
    return Array.from({ length: 25 }, (_, n) => ({ ...make('case.recorded', { code: `C${n}`, ...own }), seen: 0 }))
  }
  await records.append('marram-house', cases('desk'))
  const sent = cases('phone')
  const first = await records.append('marram-house', sent)
  expect([first.accepted.length, first.contested.length, first.refused.length]).toEqual([20, 20, 0])
  const again = await records.append('marram-house', sent)
  expect([again.accepted.length, again.contested.length, again.refused.length]).toEqual([25, 25, 0])
})

test('[SRV23] a clock set right before sending is found alike for every batch that says the same latest instant', async () => {
  const { records, clocks } = opened()
  const { make } = entryMaker('marram-house')
  const written = [-2, 20, 23].map((hours) => ({
    ...make('note.written', { text: 'x', purpose: 'note' }),
    instant: at(hours),
  }))
  const latest = at(23)
  // half an hour without a network between the batches
  for (const [n, entry] of written.entries())
    await records.append('marram-house', [entry], { deviceNow: at(n / 2), serverNow: at(n / 2), latest })
  expect(await clocks()).toEqual(Array<number>(3).fill(23 * 3600))
})

test('[SRV23] where a device does not say it, the latest instant of the batch counts, and what it says is no earlier than that', async () => {
  const { records, clocks } = opened()
  const { make } = entryMaker('marram-house')
  const note = (hours: number) => ({ ...make('note.written', { text: 'x', purpose: 'note' }), instant: at(hours) })
  await records.append('marram-house', [note(1), note(2)], { deviceNow: NOW, serverNow: NOW })
  await records.append('marram-house', [note(3)], { deviceNow: NOW, serverNow: NOW, latest: at(-5) })
  expect(await clocks()).toEqual([7200, 7200, 10_800])
})
