import { counted } from '@rillmark/casebook/units/counted.ts'
import { type DeviceDatabase, DURABLE } from '../ledger/database.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import type { SecondCopy } from './second-copy.ts'
import { makeSignal } from './signal.ts'

export interface BroughtBack {
  readonly entries: number
  readonly photos: number
}

/** What was lost with the database of this browser and is back, until a person has read it. */
export const broughtBack = makeSignal<BroughtBack | undefined>(undefined)

/**
 * Into a database that is new: what waited for the server in the one before it. Undefined where nothing did. Entries are as they were written,
 * by the device this browser was then; one that has reached the server after all is known there by its id. The second copy stays until all of
 * it has arrived, so that this may stop at any point.
 */
export async function bringBack(from: {
  readonly database: DeviceDatabase
  readonly second: SecondCopy
}): Promise<BroughtBack | undefined> {
  const { database, second } = from
  const entries = (await second.entries()).toSorted((a, b) => a.deviceSequence - b.deviceSequence)
  const photos = await second.photos()
  if (entries.length + photos.length === 0) return undefined
  const outbox = new IdbOutbox(database, '')
  for (const entry of entries) await outbox.hold(entry)
  const transaction = database.transaction(['attachments', 'unsent'], 'readwrite', DURABLE)
  const [attachments, unsent] = [transaction.objectStore('attachments'), transaction.objectStore('unsent')]
  for (const photo of photos) {
    if ((await attachments.getKey(photo.sha256)) !== undefined) continue
    await attachments.put(photo)
    // the entry that names it may have arrived long ago, so it can't be looked for here
    await unsent.put({ bytes: photo.content.length, named: true }, photo.sha256)
  }
  await transaction.done
  return { entries: entries.length, photos: photos.length }
}

export function broughtBackWords({ entries, photos }: BroughtBack): string {
  const back = [
    entries > 0 && counted(entries, { one: 'entry', many: 'entries' }),
    photos > 0 && counted(photos, 'photo'),
  ].filter((part) => part !== false)
  return `This browser lost what it kept, most likely ended in the middle of writing. What had not reached the server is back: ${back.join(', ')}. It counts as a new device now.`
}
