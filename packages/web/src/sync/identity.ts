import { type DeviceDatabase, DURABLE } from '../ledger/database.ts'
import { dropStills } from '../ledger/idb-stills.ts'
import { makePair } from './device-key.ts'
import { forgetEnrolled } from './enrolled.ts'
import { uuid7 } from './uuid7.ts'

/** The name of this browser as a device: made once and kept. */
export async function deviceId(database: DeviceDatabase): Promise<string> {
  // a full device opens too: nothing is written where nothing has to be
  const kept = await database.get('device', ID)
  if (kept !== undefined) return kept
  const transaction = database.transaction('device', 'readwrite')
  const id = (await transaction.store.get(ID)) ?? newId()
  await transaction.store.put(id, ID)
  await transaction.done
  return id
}

/**
 * Makes this browser another device, with a new name and a new key, both or neither: the server takes back neither the name nor the key of one
 * that was revoked. What waits from before stays where it is, under the old name; the server refuses it where it is sent, and a person records it again
 * under the new name (`record/record-again.ts`).
 * Everything that holds the old name has to be loaded again.
 */
export async function becomeAnother(database: DeviceDatabase): Promise<string> {
  const pair = await makePair(crypto.subtle)
  const transaction = database.transaction(['device', 'keys'], 'readwrite', DURABLE)
  const id = newId()
  await Promise.all([
    transaction.objectStore('device').put(id, ID),
    forgetEnrolled(transaction.objectStore('device')),
    dropStills(transaction.objectStore('device')),
    transaction.objectStore('keys').put(pair, 'device'),
    transaction.done,
  ])
  return id
}

/** One a tab: a channel does not hear itself, but another one in the same tab would. */
let channel: BroadcastChannel | undefined

const opened = (): BroadcastChannel => (channel ??= new BroadcastChannel('rillmark-device'))

/** Tells the other tabs of this browser that it goes by another name: what they hold is of the old one. */
export function sayAnother(): void {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a broadcast channel stays within its origin
  opened().postMessage('another')
}

/** Calls back when another tab made this browser another device. */
export function onAnother(run: () => void): void {
  opened().addEventListener('message', run)
}

const ID = 'id'
const newId = (): string => `browser-${uuid7()}`
