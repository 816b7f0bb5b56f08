import type { Entry } from '../entry/entry.ts'

/** More stretches than a line can be read for. */
const STRETCHES_NAMED = 6

/** Which entries of a record carry no signature, by their numbers, and what that means; undefined where all are signed. */
export function unsignedWords(entries: readonly Pick<Entry, 'signature'>[]): string | undefined {
  const numbers = entries.flatMap(({ signature }, index) => (signature === undefined ? [index + 1] : []))
  if (numbers.length === 0) return undefined
  const means = 'the chain shows that they fit together, not who wrote them.'
  if (numbers.length === entries.length) return `No entry is signed: ${means}`
  const stretches = stretchesOf(numbers)
  const named = stretches.slice(0, STRETCHES_NAMED).join(', ')
  const more = stretches.length > STRETCHES_NAMED ? ', …' : ''
  const are = numbers.length === 1 ? '1 entry is' : `${numbers.length} entries are`
  return `${are} not signed (${named}${more}): ${means}`
}

/** Numbers in order, runs of them as `3 to 7`. */
function stretchesOf(numbers: readonly number[]): string[] {
  const starts = numbers.filter((number, index) => number !== (numbers[index - 1] ?? 0) + 1 || index === 0)
  return starts.map((first, index) => {
    const next = starts[index + 1]
    const last = next === undefined ? numbers.at(-1) : numbers[numbers.indexOf(next) - 1]
    return last === undefined || last === first ? String(first) : `${first} to ${last}`
  })
}
