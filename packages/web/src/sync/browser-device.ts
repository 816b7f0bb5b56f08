import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { openDatabase, type DeviceDatabase } from '../ledger/database.ts'
import { keepDraft, readDraft } from '../ledger/idb-drafts.ts'
import { IdbLedger } from '../ledger/idb-ledger.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import { dropStills } from '../ledger/idb-stills.ts'
import { bringBackWhatIsLost, broughtBack } from '../offline/bring-back.ts'
import { KeptCopies } from '../offline/kept-copies.ts'
import { isOlderThanKept, letGo } from '../offline/let-go.ts'
import { noteLetIn } from '../offline/let-in.ts'
import { photoFitsIssue } from '../offline/room.ts'
import { SecondCopy } from '../offline/second-copy.ts'
import { lookAtRoomAgain, roomHere } from '../offline/storage.ts'
import type { Device, InvestigationSummary, Opened } from '../store/device.tsx'
import { localInstant } from '../store/local-time.ts'
import { newInvestigationId } from '../store/new-investigation-id.ts'
import { onceUnlessItFails } from '../store/once.ts'
import { clockAhead } from '../store/right-clock.ts'
import { summaryOf } from '../store/summary-of.ts'
import { attachmentAddress, dropUnnamed, keepAttachment } from './attachments.ts'
import { OpenInvestigations } from './open-investigations.ts'
import { type Asking, dropUnanswered, LONG_MS } from './patient-fetch.ts'
import { PhotoSender } from './photo-sender.ts'
import { deviceAccess, learnAsWhom } from './device-access.ts'
import { deviceKey } from './device-key.ts'
import { type AsWhom, readAsWhom, readEnrolled } from './enrolled.ts'
import { fetchInSession, sessionStanding, signSessionsWith } from './session.ts'
import { askServer, Refused, type ServerSummary, Unreachable } from './server-port.ts'
import { deviceDoor } from './device-door.ts'
import { deviceId } from './identity.ts'
import { SignatureWatch } from './signature-watch.ts'
import { uuid7 } from './uuid7.ts'
import { verifyLinks } from './verify-links.ts'

/** This browser as a device: it keeps everything in IndexedDB first and exchanges with the server it came from. */
export async function browserDevice(): Promise<Device> {
  const database = await openOrSay()
  const second = new SecondCopy(globalThis)
  broughtBack.set(await bringBackWhatIsLost({ database, second }))
  const device = await deviceId(database)
  const door = deviceDoor(database)
  signSessionsWith({ device, sign: async (text) => (await deviceKey(door.database))?.sign(text) })
  const photos = new PhotoSender({ database, alone: aloneInBrowser, sent: (sha256) => second.dropPhoto(sha256) })
  const copies = new KeptCopies({
    database,
    now: () => new Date().toISOString(),
    fetchPhoto,
    room: roomHere,
    alone: aloneInBrowser,
  })
  const open = openInvestigations({ database, device, photos, copies, second })
  globalThis.addEventListener('online', () => {
    dropUnanswered()
    void photos.restart()
  })
  // what is shown before the app is alive can't say that this device is no longer let in
  sessionStanding.subscribe(() => {
    if (sessionStanding.get() !== 'not in') return
    noteLetIn(false)
    void dropStills(door.database.transaction('device', 'readwrite').store).catch(() => undefined)
  })
  void photos.nudge()
  setTimeout(() => void bringKeptUpToDate(copies, open), KEPT_AFTER_MS)
  return {
    list: () => listed({ database, device, open, copies }),
    listThere: onServer,
    open: async (id) => (await open.follow(id))?.store,
    start: (request) => started(open, request),
    openExample: () => fetched('/api/demo', { method: 'POST', patienceMs: LONG_MS }),
    importPackage: (file) =>
      fetched('/api/investigations/import', {
        method: 'POST',
        headers: { 'content-type': 'application/zip' },
        body: file,
        patienceMs: LONG_MS,
      }),
    settle: async ({ investigation, entry }) => (await open.read(investigation))?.settle(entry),
    links: (investigation, range) => new IdbLedger(database).read(investigation, range),
    putAttachment: async (file) => {
      await refuseWithoutRoom(file)
      const kept = await keepAttachment(database, file)
      await second.keepPhoto(kept.sha256, file)
      lookAtRoomAgain()
      return kept
    },
    dropAttachment: async (sha256) => {
      if (await dropUnnamed(database, sha256)) await second.dropPhoto(sha256)
    },
    attachmentAddress: (sha256) => attachmentAddress(database, sha256),
    draft: (name) => readDraft(database, name),
    keepDraft: (name, text) => keepDraft(database, { name, text }),
    keepStill: async (id, drawn) => (await open.read(id))?.keepStill(drawn),
    access: async () => deviceAccess({ door, device }),
    ...copyActs(copies, open),
  }
}

function openInvestigations(given: {
  database: DeviceDatabase
  device: string
  photos: PhotoSender
  copies: KeptCopies
  second: SecondCopy
}): OpenInvestigations {
  const { database, device, photos, copies, second } = given
  const held = onceUnlessItFails(() => deviceKey(database))
  // known before the first is written, where the server answers
  void readAsWhom(database)
    .then((as) => as ?? learnAsWhom(database))
    .catch(() => undefined)
  return new OpenInvestigations({
    database,
    device,
    photos,
    second,
    exchanged: (investigation) => {
      noteLetIn(true)
      return copies.bringUpToDate(investigation)
    },
    now: localInstant,
    newId: uuid7,
    signer: async () => {
      const key = await held()
      return key === undefined ? undefined : { key, as: await asWhomHere(database) }
    },
    learnAsWhom: () => learnAsWhom(database),
    clockAheadS: clockAhead.get,
    signatures: new SignatureWatch({ database, verify: verifyLinks }),
    alone: aloneInBrowser,
  })
}

/** A server that let in whoever sat at its machine may have been closed since: then the role it gave holds no more. */
async function asWhomHere(database: DeviceDatabase): Promise<AsWhom | undefined> {
  return sessionStanding.get() === 'not in' ? readEnrolled(database) : readAsWhom(database)
}

/** Having more of an investigation on this device, or none of it. */
function copyActs(copies: KeptCopies, open: OpenInvestigations): Pick<Device, 'onCopies' | 'keepWhole' | 'letGo'> {
  return {
    onCopies: copies.subscribe,
    keepWhole: async (id) => {
      await copies.keep(id)
      const local = await open.read(id)
      await local?.loop.nudge()
      return local !== undefined
    },
    letGo: async (id) => {
      const answer = await copies.letGo(id)
      if (!answer.ok) return answer
      open.letGo(id)
      lookAtRoomAgain()
      return answer
    },
  }
}

async function started(open: OpenInvestigations, { body, author }: Parameters<Device['start']>[0]): Promise<Opened> {
  const id = newInvestigationId(body.title)
  let answer: Opened = { ok: true, id }
  await open.begin(id, async ({ store }) => {
    const proposed = await store.propose({ kind: 'investigation.opened', body, author })
    if (!proposed.ok) answer = proposed
    return proposed.ok
  })
  return answer
}

/** @throws RangeError for a photo that would take the room of entries */
async function refuseWithoutRoom(file: Blob): Promise<void> {
  const room = await roomHere()
  const trouble = room === undefined ? undefined : photoFitsIssue(room, file.size)
  if (trouble !== undefined) throw new RangeError(trouble)
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
async function bringKeptUpToDate(copies: KeptCopies, open: OpenInvestigations): Promise<void> {
  for (const id of await copies.kept()) await (await open.read(id).catch(() => undefined))?.loop.nudge()
}

const KEPT_AFTER_MS = 5000
const NOT_FOUND = 404

async function fetchPhoto(sha256: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
  const response = await fetchInSession(`/api/attachments/${sha256}`, { again: true })
  if (response.status === NOT_FOUND) return undefined
  if (!response.ok) throw new Unreachable(`the server answered ${response.status}`)
  return new Uint8Array(await response.arrayBuffer())
}

async function listed(given: {
  database: DeviceDatabase
  device: string
  open: OpenInvestigations
  copies: KeptCopies
}): Promise<readonly InvestigationSummary[]> {
  const { database, device, open, copies } = given
  const here = new Set([
    ...(await new IdbLedger(database).investigations()),
    ...(await new IdbOutbox(database, device).investigations()),
  ])
  const local = await Promise.all([...here].map((id) => open.read(id)))
  const kept = local.flatMap((each) => (each === undefined ? [] : [each]))
  for (const { loop } of kept) void loop.nudge()
  return Promise.all(kept.map(async ({ store }) => ({ ...summaryOf(store), copy: await copies.copyOf(store.id) })))
}

const LISTED_WITHIN_MS = 10_000

async function onServer(): Promise<readonly InvestigationSummary[]> {
  try {
    const asking = { patienceMs: LISTED_WITHIN_MS }
    const { investigations } = await askServer<{ investigations: ServerSummary[] }>('/api/investigations', asking)
    return investigations.map(({ id, title, locality, openedOn, head }) => ({
      id,
      title,
      locality,
      openedOn,
      entries: head.sequence,
      kept: 'On the server',
      copy: { kind: 'not here' },
    }))
  } catch (error) {
    if (error instanceof Unreachable || error instanceof Refused) return []
    throw error
  }
}

async function fetched(path: string, init: Asking): Promise<Opened> {
  try {
    return { ok: true, id: (await askServer<{ id: string }>(path, init)).id }
  } catch (error) {
    if (error instanceof Refused) return { ok: false, issues: error.issues }
    if (error instanceof Unreachable)
      return { ok: false, issues: [statedIssue('', { expected: 'the server to answer', received: error.message })] }
    throw error
  }
}

/** Web Locks where the browser has them (every secure address); else this tab alone. */
function aloneInBrowser<T>(name: string, work: () => Promise<T>): Promise<T> {
  const { locks } = navigator as { locks?: LockManager }
  return locks === undefined ? work() : (locks.request(name, work) as Promise<T>)
}
