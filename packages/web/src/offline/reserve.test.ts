import { beforeEach, expect, test, vi } from 'vitest'
import { holdReserve, withReserve } from './reserve.ts'

/** A disk with so much room, of which caches take and give back. */
class Disk {
  left: number
  readonly #kept = new Map<string, number>()

  constructor(left: number) {
    this.left = left
  }

  readonly caches = {
    open: async (name: string) => ({
      match: async () => (this.#kept.has(name) ? new Response() : undefined),
      put: async (_address: string, response: Response) => {
        const { byteLength } = await response.arrayBuffer()
        this.take(byteLength)
        this.#kept.set(name, byteLength)
      },
    }),
    delete: async (name: string) => {
      const size = this.#kept.get(name)
      this.left += size ?? 0
      return this.#kept.delete(name)
    },
  }

  take(bytes: number): void {
    if (bytes > this.left) throw new DOMException('no room', 'QuotaExceededError')
    this.left -= bytes
  }
}

const MB = 1024 ** 2
let disk: Disk
beforeEach(() => {
  disk = new Disk(6 * MB)
  vi.stubGlobal('caches', disk.caches)
})

test('[OFF6] an entry on a full device goes in with the room held back for it, once; then it is said', async () => {
  const used: string[] = []
  const entry = () =>
    withReserve(
      async () => disk.take(2 * MB),
      () => used.push('used'),
    )
  expect(await holdReserve()).toBe(true)
  expect(await holdReserve()).toBe(true)
  expect(disk.left).toBe(MB)
  await entry()
  expect(used).toEqual(['used'])
  expect(await holdReserve()).toBe(false)
  await entry()
  await entry()
  await expect(entry()).rejects.toThrow('no room')
  expect(used).toEqual(['used'])
})

test('[OFF5] a device without room for the reserve is full, whatever the browser says; one without caches does not know', async () => {
  disk.left = MB
  expect(await holdReserve()).toBe(false)
  vi.stubGlobal('caches', undefined)
  expect(await holdReserve()).toBeUndefined()
  await expect(
    withReserve(
      async () => disk.take(2 * MB),
      () => undefined,
    ),
  ).rejects.toThrow('no room')
})
