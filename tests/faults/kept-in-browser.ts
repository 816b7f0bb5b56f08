import type { Page } from '@playwright/test'
import type { Shown } from './capture.ts'

interface Kept {
  /** what this browser counts as; another after it lost its database */
  readonly device: string
  /** by what they say, and how many different entries say it */
  readonly entries: readonly (readonly [string, number])[]
  readonly photos: readonly string[]
  readonly waiting: number
}

/** What a browser counts as: another after it lost its whole database (OFF15). */
export async function deviceIn(page: Page): Promise<string> {
  return (await keptIn(page)).device
}

/** What of the shown a browser's database has not, or has twice, in words. */
export async function brokenInBrowser(
  page: Page,
  { shown, tried }: { shown: Shown; tried: readonly string[] },
): Promise<string[]> {
  const { entries, photos } = await keptIn(page)
  const count = new Map(entries)
  const texts = [...shown.notes, ...shown.photos.map(({ shows }) => shows)]
  const faults = texts
    .filter((text) => count.get(text) !== 1)
    .map((text) => `${text}: shown as kept, there ${count.get(text) ?? 0} times`)
  for (const [text, times] of entries)
    if (times > 1 || !tried.includes(text)) faults.push(`${text}: there ${times} times`)
  for (const { sha256, shows } of shown.photos) if (!photos.includes(sha256)) faults.push(`photo ${shows} is lost`)
  return faults
}

/** Reads the database beside the app. An entry on its way from the outbox to the record may be in both for a moment: it counts by its id. */
function keptIn(page: Page): Promise<Kept> {
  return page.evaluate(async () => {
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('rillmark')
      opening.addEventListener('success', () => resolve(opening.result))
      opening.addEventListener('error', () => reject(opening.error ?? new Error('the database does not open')))
    })
    const all = <T>(store: string, keys = false): Promise<T[]> =>
      new Promise((resolve, reject) => {
        const from = database.transaction(store).objectStore(store)
        const asked = keys ? from.getAllKeys() : from.getAll()
        asked.addEventListener('success', () => resolve(asked.result as T[]))
        asked.addEventListener('error', () => reject(asked.error ?? new Error(`${store} is not read`)))
      })
    interface Held {
      entry: { id: string; kind: string; body: { text?: string; shows?: string } }
    }
    const outbox = await all<Held>('outbox')
    const links = (await all<{ link: Held }>('links')).map(({ link }) => link)
    const photos = await all<string>('attachments', true)
    const [device] = (await all<string>('device')).filter((each) => each.startsWith('browser-'))
    database.close()
    const said = new Map<string, Set<string>>()
    for (const { entry } of [...links, ...outbox]) {
      const text =
        entry.kind === 'photo.taken' ? entry.body.shows : entry.kind === 'note.written' ? entry.body.text : undefined
      // a note at a stop begins with where it was written
      const own = text?.split(': ').at(-1)
      if (own !== undefined && own.startsWith('life ')) said.set(own, (said.get(own) ?? new Set()).add(entry.id))
    }
    return {
      entries: [...said].map(([text, ids]) => [text, ids.size] as const),
      photos,
      waiting: outbox.length,
      device: device ?? '',
    }
  })
}
