import type { SampleRow } from './sample-rows.ts'

export type PairPattern = 'both' | 'first draw only' | 'flushed only' | 'neither'

/** First-draw and flushed samples of one place in one round (or on one day). */
export interface DrawPair {
  readonly place: string
  readonly component?: string
  readonly first: SampleRow
  readonly flushed: SampleRow
  /** undefined while one of the two is out or cannot be read */
  readonly pattern: PairPattern | undefined
}

/** What each pattern fits; a fit is no proof, and a swab is compared by presence only, never by its count. */
export const PATTERN_WORDS: Readonly<Record<PairPattern, string>> = {
  both: 'stays positive after running: fits growth behind the outlet as well',
  'first draw only': 'clears on running: fits growth in the fitting and the last metres',
  'flushed only': 'positive only after running: fits the water of the system, or chance',
  neither: 'nothing found either way, in these volumes and by these methods',
}

export function drawPairs(rows: readonly SampleRow[]): DrawPair[] {
  const flushed = new Map<string, SampleRow>()
  for (const row of rows) if (row.draw === 'flushed' && !flushed.has(placeKey(row))) flushed.set(placeKey(row), row)
  return rows.flatMap((first) => {
    const other = first.draw === 'first draw' ? flushed.get(placeKey(first)) : undefined
    if (other === undefined) return []
    return [
      {
        place: first.place,
        ...(first.component === undefined ? {} : { component: first.component }),
        first,
        flushed: other,
        pattern: patternOf(first, other),
      },
    ]
  })
}

export function pairCounts(pairs: readonly DrawPair[]): Readonly<Record<PairPattern, number>> {
  const counts = { both: 0, 'first draw only': 0, 'flushed only': 0, neither: 0 }
  for (const { pattern } of pairs) if (pattern !== undefined) counts[pattern] += 1
  return counts
}

/** Samples of others pair only where a component was named: the same words need not be the same tap. */
function placeKey(row: SampleRow): string {
  const place = row.component ?? (row.origin === 'collected' ? row.stop : undefined)
  return place === undefined ? `alone ${row.label}` : JSON.stringify([place, row.round ?? row.collectedOn])
}

function patternOf(first: SampleRow, flushed: SampleRow): PairPattern | undefined {
  if (![first, flushed].every(({ outcome }) => outcome === 'positive' || outcome === 'negative')) return undefined
  if (first.outcome === 'positive') return flushed.outcome === 'positive' ? 'both' : 'first draw only'
  return flushed.outcome === 'positive' ? 'flushed only' : 'neither'
}
