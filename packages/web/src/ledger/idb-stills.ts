import { unwrap } from 'idb'
import { standingIn } from '../opening/early-links.ts'
import { allStills, type KeptStill, type Standing, type Still, stillKey } from '../opening/still.ts'
import type { DeviceDatabase } from './database.ts'

/** What a store of this device's own things can be asked here. */
interface OwnThings {
  readonly delete: (key: string | IDBKeyRange) => Promise<void>
}

/**
 * Keeps a still, unless the record stands otherwise by now than the screen it was drawn from. Whoever writes to the record drops it in the
 * same stroke (`dropStill`), so that one that is kept is true however the browser ends. False where it was not kept.
 */
export async function keepStill(
  database: DeviceDatabase,
  { investigation, still, drawnFrom }: { investigation: string; still: Still; drawnFrom: Standing },
): Promise<boolean> {
  const transaction = database.transaction(['device', 'links', 'outbox'], 'readwrite')
  const { links, waiting } = await standingIn(unwrap(transaction), investigation)
  const same =
    links === drawnFrom.links &&
    waiting.length === drawnFrom.waiting.length &&
    waiting.every((id, at) => id === drawnFrom.waiting[at])
  const kept: KeptStill = { ...still, links, waiting }
  if (same) await transaction.objectStore('device').put(JSON.stringify(kept), stillKey(investigation))
  await transaction.done
  return same
}

/** Within a transaction that changes the record of an investigation, or how far it can be relied on. */
export function dropStill(device: OwnThings, investigation: string): Promise<void> {
  return device.delete(stillKey(investigation))
}

/** Within a transaction, or outside of one: of all investigations. */
export function dropStills(device: OwnThings): Promise<void> {
  return device.delete(allStills())
}
