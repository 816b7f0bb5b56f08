import type { MemoryLedger } from '@rillmark/casebook/ledger/memory-ledger.ts'
import type { OfflineDevice } from './offline-device.ts'
import { stateOf } from './derived.ts'

/**
 * Entries whose derived instant is not when they were truly written, in words. A device whose clock was set between writing and sending is
 * left out: what it was wrong by is no longer there to be measured.
 *
 * @param cameBy by id: the setting of the clock by which an entry came; without it, of devices whose clock was never set meanwhile
 */
export async function wrongTimes(
  investigation: string,
  given: {
    readonly record: MemoryLedger
    readonly devices: readonly OfflineDevice[]
    readonly cameBy?: ReadonlyMap<string, number>
  },
): Promise<{ wrong: string[]; looked: number }> {
  const { record, devices, cameBy } = given
  const state = await stateOf(record, investigation)
  const instants = new Map<string, string>(state.record.entries.map(({ id, instant }) => [id, instant]))
  for (const { original } of state.contests.contested.values()) instants.set(original.id, original.instant)
  const wrong: string[] = []
  let looked = 0
  for (const device of devices)
    for (const [id, { trueMs, setting }] of device.wrote) {
      const derived = instants.get(id)
      if (derived === undefined || (cameBy !== undefined && cameBy.get(id) !== setting)) continue
      looked += 1
      const right = new Date(trueMs).toISOString()
      if (derived !== right) wrong.push(`${device.name}: written at ${right}, derived as ${derived}`)
    }
  return { wrong, looked }
}
