/** Orders names the way people do, without a locale: numbers inside them by size (`A2` before `A10`). */
export function natural(a: string, b: string): number {
  const as = a.match(CHUNKS) ?? []
  const bs = b.match(CHUNKS) ?? []
  for (let at = 0; at < Math.min(as.length, bs.length); at += 1) {
    const one = as[at] ?? ''
    const two = bs[at] ?? ''
    const byNumber = DIGITS.test(one) && DIGITS.test(two) ? Number(one) - Number(two) : 0
    if (byNumber !== 0) return byNumber
    if (one !== two) return one < two ? -1 : 1
  }
  return as.length - bs.length || (a < b ? -1 : a > b ? 1 : 0)
}

const CHUNKS = /\d+|\D+/g
const DIGITS = /^\d/
