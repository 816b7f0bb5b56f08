/** A number between two limits that follows from a name: varied, and the same every time the example is built. */
export function spread(
  name: string,
  { from, to, decimals = 0 }: { from: number; to: number; decimals?: number },
): number {
  let hash = 2166136261
  for (const char of name) hash = Math.imul(hash ^ (char.codePointAt(0) ?? 0), 16777619) >>> 0
  hash = Math.imul(hash ^ (hash >>> 15), 2246822507) >>> 0
  const fraction = ((hash ^ (hash >>> 13)) >>> 0) / 2 ** 32
  return Number((from + (to - from) * fraction).toFixed(decimals))
}
