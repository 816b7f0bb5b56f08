import { issue } from '@rillmark/science/catalogue/issue.ts'
import type { Device, InvestigationSummary } from './device.tsx'
import { InvestigationStore } from './investigation-store.ts'
import type { InvestigationPorts, SyncState } from './ports.ts'

const SYNC: SyncState = { words: 'Kept in this window only', pending: 0, refused: [] }

/** A device that keeps everything in memory, for trying screens; nothing survives the window, and it says so. */
export function memoryDevice(): Device {
  const stores = new Map<string, InvestigationStore>()
  const elsewhere = (what: string) =>
    Promise.resolve({
      ok: false as const,
      issues: [issue('', { expected: `a server to ${what}`, received: 'memory of this window only' })],
    })
  return {
    list: () => Promise.resolve([...stores.values()].map(summaryOf)),
    open: (id) => Promise.resolve(stores.get(id)),
    start: async ({ body, author }) => {
      const id = newInvestigationId(body.title)
      const store = new InvestigationStore({ id, entries: [], ports: memoryPorts(), sync: SYNC })
      const proposed = await store.propose({ kind: 'investigation.opened', body, author })
      if (!proposed.ok) return proposed
      stores.set(id, store)
      return { ok: true, id }
    },
    openExample: () => elsewhere('fetch the worked example from'),
    importPackage: () => elsewhere('read the package'),
    settle: () => Promise.resolve(),
    links: () => Promise.resolve([]),
    putAttachment: () => Promise.reject(new RangeError('Cannot keep a picture because this window keeps nothing')),
    attachmentAddress: (sha256) => Promise.resolve(`/api/attachments/${sha256}`),
  }
}

function memoryPorts(): InvestigationPorts {
  let sequence = 0
  return {
    keep: () => Promise.resolve(),
    nextDeviceSequence: () => Promise.resolve(++sequence),
    device: 'window',
    now: localInstant,
    newId: () => crypto.randomUUID(),
  }
}

/** The instant and the local offset in force now, as entries keep them. */
export function localInstant(): { instant: string; offset: string } {
  const now = new Date()
  const minutes = -now.getTimezoneOffset()
  const size = Math.abs(minutes)
  const two = (value: number): string => String(value).padStart(2, '0')
  return {
    instant: now.toISOString(),
    offset: `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`,
  }
}

/** A readable id: the title's words and four random letters, so that two houses of one name stay apart. */
export function newInvestigationId(title: string): string {
  const words = title
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40)
    .replace(/-+$/, '')
  const letters = 'abcdefghjkmnpqrstuvwxyz'
  const random = crypto.getRandomValues(new Uint8Array(4))
  return `${words === '' ? 'investigation' : words}-${Array.from(random, (byte) => letters[byte % letters.length]).join('')}`
}

export function summaryOf(store: InvestigationStore): InvestigationSummary {
  const { state, sync } = store.snapshot()
  const opened = state.brief.opened?.body
  return {
    id: store.id,
    title: opened?.title ?? store.id,
    locality: opened?.locality,
    openedOn: opened?.openedOn,
    entries: state.record.entries.length,
    kept: sync.words,
  }
}
