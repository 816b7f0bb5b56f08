import { isDeepStrictEqual } from 'node:util'
import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import type { MemoryLedger } from '@rillmark/casebook/ledger/memory-ledger.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import type { OfflineDevice } from './offline-device.ts'

const ALL = { after: 0, limit: 1_000_000 }

/**
 * What is wrong once everybody has exchanged everything, in words: an unsound record, a copy that differs or comes to something else, an
 * entry that is neither in the record, nor kept in it as a second account, nor refused on its own device with the reason; or more than one of these.
 */
export async function unaccounted(
  investigation: string,
  { record, devices }: { record: MemoryLedger; devices: readonly OfflineDevice[] },
): Promise<string[]> {
  const links = await record.read(investigation, ALL)
  const verdict = verifyChain(links, { investigation, checkSignature })
  const faults = verdict.sound ? [] : [`the record, ${verdict.sequence}: ${verdict.reason}`]
  const state = derive(investigation, entriesOf(links))
  const ids = [
    ...links.map(({ entry }) => entry.id),
    ...links.flatMap(({ entry }) => (entry.kind === 'entry.contested' ? [entry.body.entry.id] : [])),
  ]
  for (const device of devices) {
    const waiting = await device.outbox.pending(investigation)
    for (const { entry, refused } of waiting)
      if (refused === undefined) faults.push(`${device.name}: ${entry.kind} ${entry.deviceSequence} still waits`)
    const here = [...ids, ...waiting.map(({ entry }) => entry.id)]
    for (const { id, kind, deviceSequence } of device.written) {
      const found = here.filter((each) => each === id).length
      if (found !== 1) faults.push(`${device.name}: ${kind} ${deviceSequence} is there ${found} times`)
    }
    if (!isDeepStrictEqual(await device.ledger.read(investigation, ALL), links))
      faults.push(`${device.name}: another record`)
    if (!isDeepStrictEqual(await device.state(), state)) faults.push(`${device.name}: another state`)
  }
  return faults
}
