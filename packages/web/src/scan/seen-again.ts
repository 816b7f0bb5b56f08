/** How long a symbol must be out of sight before it counts as shown again. Our own choice. */
const GONE_MS = 1500

/** Tells a symbol held before the camera, seen many times a second, from one shown anew. Keeps state; `now` in milliseconds. */
export function seenAgain(): (text: string, now: number) => boolean {
  const lastSeen = new Map<string, number>()
  return (text, now) => {
    const before = lastSeen.get(text)
    lastSeen.set(text, now)
    return before !== undefined && now - before < GONE_MS
  }
}
