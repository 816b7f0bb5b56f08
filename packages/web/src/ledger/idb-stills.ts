import { unwrap } from 'idb'
import { standingIn } from '../opening/early-links.ts'
import { allStills, type DrawnFrom, type KeptStill, type Still, sameDrawnFrom, stillKey } from '../opening/still.ts'
import type { DeviceDatabase } from './database.ts'
import { isUnsound } from './unsound.ts'

/** What a store of this device's own things can be asked here. */
interface OwnThings {
  readonly delete: (key: string | IDBKeyRange) => Promise<void>
}

/**
 * Keeps a still, unless the record stands otherwise by now than the screen it was drawn from, or was found not to hold. Whoever writes to the record drops it in the
 * same stroke (`dropStill`), so that one that is kept is true however the browser ends. False where it was not kept.
 */
export async function keepStill(
  database: DeviceDatabase,
  { investigation, still, drawnFrom }: { investigation: string; still: Still; drawnFrom: DrawnFrom },
): Promise<boolean> {
  const transaction = database.transaction(['device', 'links', 'outbox'], 'readwrite')
  const [device, outbox] = [transaction.objectStore('device'), transaction.objectStore('outbox')]
  const { links, waiting } = await standingIn(unwrap(transaction), investigation)
  const rows = await Promise.all(waiting.map((id) => outbox.get(id)))
  const refused = waiting.filter((_, at) => rows[at]?.refused !== undefined)
  const sound = !(await isUnsound({ device, links: transaction.objectStore('links') }, investigation))
  const holds = sound && sameDrawnFrom({ links, waiting, refused }, drawnFrom)
  const kept: KeptStill = { ...still, links, waiting }
  if (holds) await device.put(JSON.stringify(kept), stillKey(investigation))
  await transaction.done
  return holds
}

/** Within a transaction that changes the record of an investigation, or how far it can be relied on. */
export function dropStill(device: OwnThings, investigation: string): Promise<void> {
  return device.delete(stillKey(investigation))
}

/** Within a transaction, or outside of one: of all investigations. */
export function dropStills(device: OwnThings): Promise<void> {
  return device.delete(allStills())
}
