import type { RecordState } from '../record/state.ts'

/** Where in a record each word of its bodies stands: places from 0, rising. */
export type WordPlaces = ReadonlyMap<string, readonly number[]>

interface Kept {
  readonly places: Map<string, number[]>
  /** entries gone through */
  upTo: number
}

const kept = new WeakMap<RecordState, Kept>()

/** The places of all words of a record. Made when first asked, and then only of what was added since. */
export function wordPlaces(record: RecordState): WordPlaces {
  const known = kept.get(record) ?? { places: new Map<string, number[]>(), upTo: 0 }
  kept.set(record, known)
  for (; known.upTo < record.entries.length; known.upTo += 1) {
    const entry = record.entries[known.upTo]
    if (entry === undefined) continue
    for (const word of new Set(wordsIn(entry.body))) {
      const places = known.places.get(word)
      if (places === undefined) known.places.set(word, [known.upTo])
      else places.push(known.upTo)
    }
  }
  return known.places
}

/** Every text in a body, at any depth. */
export function wordsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value]
  if (typeof value !== 'object' || value === null) return []
  return Object.values(value).flatMap(wordsIn)
}
