import { counted } from '@rillmark/casebook/units/counted.ts'
import { type DeviceDatabase, DURABLE } from '../ledger/database.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { SecondCopy } from './second-copy.ts'
import { makeSignal } from './signal.ts'

export interface BroughtBack {
  readonly entries: number
  readonly photos: number
}

/** What was lost with the database of this browser and is back, until a person has read it. */
export const broughtBack = makeSignal<BroughtBack | undefined>(undefined)

/** beside what the device is, while not all is back */
const UNFINISHED = 'bringing back'

/**
 * Where the database is new, or could not take all the last time. It keeps no app from opening: what could not be brought back, on a device
 * that is full for instance, stays in the second copy until it can be.
 */
export async function bringBackWhatIsLost(from: {
  readonly database: DeviceDatabase
  readonly second: SecondCopy
}): Promise<BroughtBack | undefined> {
  const { database, second } = from
  const [id, unfinished] = await Promise.all([database.get('device', 'id'), database.get('device', UNFINISHED)])
  if (id !== undefined && unfinished === undefined) return undefined
  try {
    return await bringBack(from)
  } catch {
    second.hold()
    return undefined
  }
}

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
  const entries = lastSaid(await second.entries()).toSorted((a, b) => a.deviceSequence - b.deviceSequence)
  const photos = await second.photos()
  if (entries.length + photos.length === 0) return undefined
  await database.put('device', 'yes', UNFINISHED)
  const outbox = new IdbOutbox(database, '')
  for (const entry of entries) await outbox.holdAll([entry], { back: true })
  const transaction = database.transaction(['attachments', 'unsent'], 'readwrite', DURABLE)
  const [attachments, unsent] = [transaction.objectStore('attachments'), transaction.objectStore('unsent')]
  for (const photo of photos) {
    if ((await attachments.getKey(photo.sha256)) !== undefined) continue
    const { sha256, mediaType, content, named } = photo
    await attachments.put({ sha256, mediaType, content })
    await unsent.put({ bytes: content.length, named }, sha256)
  }
  await transaction.done
  await database.delete('device', UNFINISHED)
  return { entries: entries.length, photos: photos.length }
}

/** Of what a device said of itself at joining under one number, the last: it was said anew when it was let in as something else. */
function lastSaid(entries: readonly Entry[]): readonly Entry[] {
  const last = new Map<string, Entry>()
  const sayings = entries.filter(({ kind }) => kind === 'device.joined')
  for (const entry of sayings.toSorted((a, b) => (timeOf(a) < timeOf(b) ? -1 : 1))) last.set(placeOf(entry), entry)
  return entries.filter((entry) => entry.kind !== 'device.joined' || last.get(placeOf(entry)) === entry)
}

const placeOf = ({ investigation, device, deviceSequence }: Entry): string =>
  `${investigation} ${device} ${deviceSequence}`
const timeOf = ({ instant, id }: Entry): string => `${instant} ${id}`

export function broughtBackWords({ entries, photos }: BroughtBack): string {
  const back = [
    entries > 0 && counted(entries, { one: 'entry', many: 'entries' }),
    photos > 0 && counted(photos, 'photo'),
  ].filter((part) => part !== false)
  return `This browser lost what it kept, most likely ended in the middle of writing. What had not reached the server is back: ${back.join(', ')}. It counts as a new device now.`
}
