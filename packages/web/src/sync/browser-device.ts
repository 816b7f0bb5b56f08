import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { type DeviceDatabase, openDatabase } from '../ledger/database.ts'
import { keepDraft, readDraft } from '../ledger/idb-drafts.ts'
import { IdbLedger } from '../ledger/idb-ledger.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import type { Device, InvestigationSummary, Opened } from '../store/device.tsx'
import { localInstant } from '../store/local-time.ts'
import { newInvestigationId } from '../store/new-investigation-id.ts'
import { summaryOf } from '../store/summary-of.ts'
import { attachmentAddress, keepAttachment } from './attachments.ts'
import { type DeviceParts, LocalInvestigation } from './open-investigation.ts'
import { PhotoSender } from './photo-sender.ts'
import { askServer, Refused, type ServerSummary, Unreachable } from './server-port.ts'
import { uuid7 } from './uuid7.ts'

/** This browser as a device: it keeps everything in IndexedDB first and exchanges with the server it came from. */
export async function browserDevice(): Promise<Device> {
  const database = await openDatabase()
  const device = await deviceId(database)
  const channel = new BroadcastChannel('rillmark')
  const open = new Map<string, Promise<LocalInvestigation | undefined>>()
  const photos = new PhotoSender({ database, alone: aloneInBrowser })
  const parts: DeviceParts = {
    database,
    device,
    photos,
    now: localInstant,
    newId: uuid7,
    alone: (name, work) => aloneInBrowser(name, work),
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a broadcast channel stays within its origin
    tell: (investigation) => channel.postMessage(investigation),
  }
  globalThis.addEventListener('online', () => void photos.nudge())
  void photos.nudge()
  channel.addEventListener('message', ({ data }) => void open.get(String(data))?.then((local) => local?.refresh()))
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
  return {
    list: () => listed({ database, device, opened }),
    open: async (id) => (await opened(id))?.store,
    start: async ({ body, author }) => {
      const id = newInvestigationId(body.title)
      const local = new LocalInvestigation(id, parts)
      open.set(id, Promise.resolve(local))
      const proposed = await local.store.propose({ kind: 'investigation.opened', body, author })
      if (!proposed.ok) {
        open.delete(id)
        return proposed
      }
      local.follow()
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
      const kept = await keepAttachment(database, file)
      void photos.nudge()
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
  local.follow()
  return local
}

async function listed(given: {
  database: DeviceDatabase
  device: string
  opened: (id: string) => Promise<LocalInvestigation | undefined>
}): Promise<readonly InvestigationSummary[]> {
  const { database, device, opened } = given
  const here = new Set([
    ...(await new IdbLedger(database).investigations()),
    ...(await new IdbOutbox(database, device).investigations()),
  ])
  const local = await Promise.all([...here].map(async (id) => (await opened(id))?.store))
  const there = await onServer()
  return [
    ...local.flatMap((store) => (store === undefined ? [] : [summaryOf(store)])),
    ...there
      .filter(({ id }) => !here.has(id))
      .map(({ id, title, locality, openedOn, head }) => ({
        id,
        title,
        locality,
        openedOn,
        entries: head.sequence,
        kept: 'On the server, not yet on this device',
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
