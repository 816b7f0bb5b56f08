import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { openDatabase, type DeviceDatabase } from '../ledger/database.ts'
import { keepDraft, readDraft } from '../ledger/idb-drafts.ts'
import { IdbLedger } from '../ledger/idb-ledger.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import { KeptCopies } from '../offline/kept-copies.ts'
import { forgetPlace } from '../offline/last-place.ts'
import { isOlderThanKept, letGo } from '../offline/let-go.ts'
import { photoFitsIssue } from '../offline/room.ts'
import { lookAtRoomAgain, roomHere } from '../offline/storage.ts'
import type { Device, InvestigationSummary, Opened } from '../store/device.tsx'
import { localInstant } from '../store/local-time.ts'
import { newInvestigationId } from '../store/new-investigation-id.ts'
import { clockAhead } from '../store/right-clock.ts'
import { summaryOf } from '../store/summary-of.ts'
import { attachmentAddress, keepAttachment } from './attachments.ts'
import { type DeviceParts, LocalInvestigation } from './open-investigation.ts'
import { PhotoSender } from './photo-sender.ts'
import { deviceAccess } from './device-access.ts'
import { type DeviceKey, deviceKey } from './device-key.ts'
import { readEnrolled } from './enrolled.ts'
import { fetchInSession, signSessionsWith } from './session.ts'
import { askServer, Refused, type ServerSummary, Unreachable } from './server-port.ts'
import { uuid7 } from './uuid7.ts'

/** This browser as a device: it keeps everything in IndexedDB first and exchanges with the server it came from. */
export async function browserDevice(): Promise<Device> {
  const database = await openOrSay()
  const device = await deviceId(database)
  signSessionsWith({ device, sign: async (text) => (await deviceKey(database))?.sign(text) })
  let key: Promise<DeviceKey | undefined> | undefined
  const held = (): Promise<DeviceKey | undefined> => (key ??= deviceKey(database))
  const channel = new BroadcastChannel('rillmark')
  const open = new Map<string, Promise<LocalInvestigation | undefined>>()
  const photos = new PhotoSender({ database, alone: aloneInBrowser })
  const copies = new KeptCopies({
    database,
    now: () => new Date().toISOString(),
    fetchPhoto,
    room: roomHere,
    alone: aloneInBrowser,
  })
  const following = new Map<string, () => void>()
  const parts: DeviceParts = {
    database,
    device,
    photos,
    exchanged: (investigation) => copies.bringUpToDate(investigation),
    now: localInstant,
    newId: uuid7,
    signer: async () => {
      const key = await held()
      return key === undefined ? undefined : { key, enrolled: await readEnrolled(database) }
    },
    clockAheadS: clockAhead.get,
    alone: (name, work) => aloneInBrowser(name, work),
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a broadcast channel stays within its origin
    tell: (investigation) => channel.postMessage(investigation),
  }
  globalThis.addEventListener('online', () => void photos.nudge())
  void photos.nudge()
  const close = (id: string): void => {
    following.get(id)?.()
    following.delete(id)
    void open.get(id)?.then((local) => local?.loop.stop())
    open.delete(id)
    forgetPlace(id)
  }
  channel.addEventListener('message', ({ data }: MessageEvent<string | { letGo: string }>) => {
    if (typeof data === 'string') void open.get(data)?.then((local) => local?.refresh())
    else close(data.letGo)
  })
  const opened = (id: string): Promise<LocalInvestigation | undefined> => {
    const known = open.get(id)
    if (known !== undefined) return known
    const opening = openLocal(id, parts)
    open.set(id, opening)
    void opening.then(
      (local) => local ?? open.delete(id),
      () => open.delete(id),
    )
    return opening
  }
  setTimeout(() => void bringKeptUpToDate(copies, opened), KEPT_AFTER_MS)
  return {
    list: () => listed({ database, device, opened, copies }),
    open: async (id) => {
      const local = await opened(id)
      if (local !== undefined && !following.has(id)) following.set(id, local.follow())
      return local?.store
    },
    onCopies: copies.subscribe,
    access: async () => deviceAccess({ database, device }),
    keepWhole: async (id) => {
      await copies.keep(id)
      const local = await opened(id)
      await local?.loop.nudge()
      return local !== undefined
    },
    letGo: async (id) => {
      const answer = await copies.letGo(id)
      if (answer.ok) {
        close(id)
        // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a broadcast channel stays within its origin
        channel.postMessage({ letGo: id })
        lookAtRoomAgain()
      }
      return answer
    },
    start: async ({ body, author }) => {
      const id = newInvestigationId(body.title)
      const local = new LocalInvestigation(id, parts)
      open.set(id, Promise.resolve(local))
      const proposed = await local.store.propose({ kind: 'investigation.opened', body, author })
      if (!proposed.ok) {
        open.delete(id)
        return proposed
      }
      following.set(id, local.follow())
      return { ok: true, id }
    },
    openExample: () => fetched('/api/demo', { method: 'POST' }),
    importPackage: (file) =>
      fetched('/api/investigations/import', {
        method: 'POST',
        headers: { 'content-type': 'application/zip' },
        body: file,
      }),
    settle: async ({ investigation, entry }) => (await opened(investigation))?.settle(entry),
    links: (investigation, range) => new IdbLedger(database).read(investigation, range),
    putAttachment: async (file) => {
      const room = await roomHere()
      const trouble = room === undefined ? undefined : photoFitsIssue(room, file.size)
      if (trouble !== undefined) throw new RangeError(trouble)
      const kept = await keepAttachment(database, file)
      void photos.nudge()
      lookAtRoomAgain()
      return kept
    },
    attachmentAddress: (sha256) => attachmentAddress(database, sha256),
    draft: (name) => readDraft(database, name),
    keepDraft: (name, text) => keepDraft(database, { name, text }),
  }
}

/** Opens what is kept here, or fetches it; undefined when neither this device nor the server knows it. */
async function openLocal(id: string, parts: DeviceParts): Promise<LocalInvestigation | undefined> {
  const local = new LocalInvestigation(id, parts)
  await local.refresh()
  if (local.empty) await local.loop.nudge()
  if (local.empty) {
    local.loop.stop()
    return undefined
  }
  return local
}

/** Opens what is kept; where this page may not, because it is of an older version, says so on every screen. */
async function openOrSay(): Promise<DeviceDatabase> {
  try {
    return await openDatabase('rillmark', {
      onLetGo: (why) => letGo.set(why === 'newer version' ? 'newer tab' : 'browser'),
    })
  } catch (error) {
    if (isOlderThanKept(error)) letGo.set('older app')
    throw error
  }
}

/** Kept investigations that nobody has open are exchanged too, once the screen that was asked for is there. */
async function bringKeptUpToDate(
  copies: KeptCopies,
  opened: (id: string) => Promise<LocalInvestigation | undefined>,
): Promise<void> {
  for (const id of await copies.kept()) await (await opened(id).catch(() => undefined))?.loop.nudge()
}

const KEPT_AFTER_MS = 5000
const NOT_FOUND = 404

async function fetchPhoto(sha256: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
  const response = await fetchInSession(`/api/attachments/${sha256}`)
  if (response.status === NOT_FOUND) return undefined
  if (!response.ok) throw new Unreachable(`the server answered ${response.status}`)
  return new Uint8Array(await response.arrayBuffer())
}

async function listed(given: {
  database: DeviceDatabase
  device: string
  opened: (id: string) => Promise<LocalInvestigation | undefined>
  copies: KeptCopies
}): Promise<readonly InvestigationSummary[]> {
  const { database, device, opened, copies } = given
  const here = new Set([
    ...(await new IdbLedger(database).investigations()),
    ...(await new IdbOutbox(database, device).investigations()),
  ])
  const local = await Promise.all([...here].map((id) => opened(id)))
  const there = await onServer()
  const kept = local.flatMap((each) => (each === undefined ? [] : [each]))
  for (const { loop } of kept) void loop.nudge()
  return [
    ...(await Promise.all(
      kept.map(async ({ store }) => ({ ...summaryOf(store), copy: await copies.copyOf(store.id) })),
    )),
    ...there
      .filter(({ id }) => !here.has(id))
      .map(({ id, title, locality, openedOn, head }) => ({
        id,
        title,
        locality,
        openedOn,
        entries: head.sequence,
        kept: 'On the server',
        copy: { kind: 'not here' as const },
      })),
  ]
}

async function onServer(): Promise<readonly ServerSummary[]> {
  try {
    return (await askServer<{ investigations: ServerSummary[] }>('/api/investigations')).investigations
  } catch (error) {
    if (error instanceof Unreachable || error instanceof Refused) return []
    throw error
  }
}

async function fetched(path: string, init: RequestInit): Promise<Opened> {
  try {
    return { ok: true, id: (await askServer<{ id: string }>(path, init)).id }
  } catch (error) {
    if (error instanceof Refused) return { ok: false, issues: error.issues }
    if (error instanceof Unreachable)
      return { ok: false, issues: [statedIssue('', { expected: 'the server to answer', received: error.message })] }
    throw error
  }
}

/** Made once in this browser and kept. */
async function deviceId(database: DeviceDatabase): Promise<string> {
  const transaction = database.transaction('device', 'readwrite')
  const id = (await transaction.store.get('id')) ?? `browser-${uuid7()}`
  await transaction.store.put(id, 'id')
  await transaction.done
  return id
}

/** Web Locks where the browser has them (every secure address); else this tab alone. */
function aloneInBrowser<T>(name: string, work: () => Promise<T>): Promise<T> {
  const { locks } = navigator as { locks?: LockManager }
  return locks === undefined ? work() : (locks.request(name, work) as Promise<T>)
}
