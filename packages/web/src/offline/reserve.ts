import { isFull } from './room.ts'

const NAME = 'rillmark-reserve'
const ADDRESS = '/reserve'
/** Some thousand entries of a kilobyte or two. Our own choice, no source. */
const RESERVE_BYTES = 5 * 1024 ** 2

/**
 * Holds some room back for entries, as a file of nothing. Browsers do not tell how much room there really is, so that this is also how a full
 * device is found out before an entry does not fit: false where there is no room for it. Undefined where the browser can't hold one.
 */
export async function holdReserve(): Promise<boolean | undefined> {
  const { caches } = globalThis as { caches?: CacheStorage }
  if (caches === undefined) return undefined
  try {
    const cache = await caches.open(NAME)
    if ((await cache.match(ADDRESS)) === undefined)
      await cache.put(ADDRESS, new Response(new Uint8Array(RESERVE_BYTES)))
    return true
  } catch (error) {
    return isFull(error) ? false : undefined
  }
}

/** Writes what must be kept; on a full device once more, with the room that was held back for it. */
export async function withReserve<T>(write: () => Promise<T>, onUsed: () => void): Promise<T> {
  try {
    return await write()
  } catch (error) {
    const { caches } = globalThis as { caches?: CacheStorage }
    if (!isFull(error) || caches === undefined || !(await caches.delete(NAME))) throw error
    onUsed()
    return write()
  }
}
