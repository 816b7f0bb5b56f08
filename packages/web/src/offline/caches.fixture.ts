/** Cache Storage as far as it is used here, in memory, for tests outside a browser. */
export function memoryCaches(): CacheStorage {
  const kept = new Map<string, Map<string, Response>>()
  const cacheOf = (name: string): Map<string, Response> => {
    const cache = kept.get(name) ?? new Map<string, Response>()
    kept.set(name, cache)
    return cache
  }
  const caches = {
    has: async (name: string) => kept.has(name),
    open: async (name: string) => {
      const cache = cacheOf(name)
      return {
        put: async (address: string, answer: Response) => void cache.set(address, answer),
        match: async (address: string) => cache.get(address)?.clone(),
        delete: async (address: string) => cache.delete(address),
        keys: async () => [...cache.keys()].map((address) => new Request(`http://here${address}`)),
      }
    },
  }
  return caches as unknown as CacheStorage
}
