import type { Link } from '@rillmark/casebook/chain/link.ts'
import { type KeptStill, type Standing, stillFrom, stillKey } from './still.ts'

/** The links this device keeps of one investigation, read before the app itself has started. */
interface Early {
  readonly investigation: string
  /** unpacked when they are taken: until then there may be something to paint */
  readonly links: Promise<(() => readonly Link[]) | undefined>
}

declare global {
  var rillmarkEarly: Early | undefined
}

const DATABASE = 'rillmark'
const LINKS = 'links'

/** The still of an investigation, and how its record stands, both at one moment. */
export interface FoundStill {
  readonly still: KeptStill
  readonly standing: Standing
}

/**
 * Begins to read while the scripts of the app are still on their way. It only reads: where this browser keeps nothing yet it makes nothing,
 * and whatever goes wrong is left to the app, which then reads for itself. The still is read first.
 */
export function readEarly(investigation: string): Promise<FoundStill | undefined> {
  const opened = openKept()
  const still = opened.then((database) => stillIn(database, investigation))
  const links = opened.then((database) => linksIn(database, investigation))
  opened.then(
    (database) => database.close(),
    () => undefined,
  )
  globalThis.rillmarkEarly = { investigation, links: links.catch(() => undefined) }
  return still.catch(() => undefined)
}

/** What was read early of an investigation, once; undefined where nothing was. */
export async function takeEarly(investigation: string): Promise<readonly Link[] | undefined> {
  const early = globalThis.rillmarkEarly
  if (early?.investigation !== investigation) return undefined
  globalThis.rillmarkEarly = undefined
  return (await early.links)?.()
}

function openKept(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(DATABASE)
    opening.addEventListener('upgradeneeded', () => opening.transaction?.abort())
    opening.addEventListener('error', () => reject(opening.error ?? new TypeError('Cannot read early')))
    opening.addEventListener('success', () => {
      const database = opening.result
      // another tab may bring a newer version: this one must not stand in its way
      database.addEventListener('versionchange', () => database.close())
      resolve(database)
    })
  })
}

async function linksIn(database: IDBDatabase, investigation: string): Promise<() => readonly Link[]> {
  const reading = database.transaction(LINKS).objectStore(LINKS).getAll(rangeOf(investigation))
  await settled(reading)
  return () => (reading.result as readonly { readonly link: Link }[]).map(({ link }) => link)
}

async function stillIn(database: IDBDatabase, investigation: string): Promise<FoundStill | undefined> {
  const transaction = database.transaction(['device', LINKS, 'outbox'])
  const text = transaction.objectStore('device').get(stillKey(investigation))
  const standing = standingIn(transaction, investigation)
  const still = stillFrom(await done(text))
  return still === undefined ? undefined : { still, standing: await standing }
}

/** How the record of an investigation stands, within a transaction over its links and what waits. */
export async function standingIn(transaction: IDBTransaction, investigation: string): Promise<Standing> {
  const range = rangeOf(investigation)
  const last = transaction.objectStore(LINKS).openKeyCursor(range, 'prev')
  const waiting = transaction.objectStore('outbox').index('in-order').getAllKeys(range)
  const [cursor, ids] = await Promise.all([done(last), done(waiting)])
  const [, links = 0] = (cursor?.primaryKey as [string, number] | undefined) ?? []
  return { links, waiting: ids as string[] }
}

async function done<T>(request: IDBRequest<T>): Promise<T> {
  await settled(request)
  return request.result
}

function settled(request: IDBRequest): Promise<void> {
  return new Promise((resolve, reject) => {
    request.addEventListener('success', () => resolve())
    request.addEventListener('error', () => reject(request.error ?? new TypeError('Cannot read early')))
  })
}

function rangeOf(investigation: string): IDBKeyRange {
  return IDBKeyRange.bound([investigation, 0], [investigation, Number.MAX_SAFE_INTEGER])
}
