import type { Link } from '@rillmark/casebook/chain/link.ts'

/** The links this device keeps of one investigation, read before the app itself has started. */
interface Early {
  readonly investigation: string
  readonly links: Promise<readonly Link[] | undefined>
}

declare global {
  var rillmarkEarly: Early | undefined
}

const DATABASE = 'rillmark'
const STORE = 'links'

/**
 * Begins to read while the scripts of the app are still on their way. It only reads: where this browser keeps nothing yet it makes nothing,
 * and whatever goes wrong is left to the app, which then reads for itself.
 */
export function readEarly(investigation: string): void {
  globalThis.rillmarkEarly = { investigation, links: linksOf(investigation).catch(() => undefined) }
}

/** What was read early of an investigation, once; undefined where nothing was. */
export async function takeEarly(investigation: string): Promise<readonly Link[] | undefined> {
  const early = globalThis.rillmarkEarly
  if (early?.investigation !== investigation) return undefined
  globalThis.rillmarkEarly = undefined
  return early.links
}

function linksOf(investigation: string): Promise<readonly Link[]> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(DATABASE)
    opening.addEventListener('upgradeneeded', () => opening.transaction?.abort())
    opening.addEventListener('error', () => reject(opening.error ?? new TypeError('Cannot read early')))
    opening.addEventListener('success', () => {
      const database = opening.result
      // another tab may bring a newer version: this one must not stand in its way
      database.addEventListener('versionchange', () => database.close())
      const range = IDBKeyRange.bound([investigation, 0], [investigation, Number.MAX_SAFE_INTEGER])
      const reading = database.transaction(STORE).objectStore(STORE).getAll(range)
      reading.addEventListener('success', () =>
        resolve((reading.result as readonly { readonly link: Link }[]).map(({ link }) => link)),
      )
      reading.addEventListener('error', () => reject(reading.error ?? new TypeError('Cannot read early')))
      database.close()
    })
  })
}
