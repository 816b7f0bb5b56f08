import { readLabel } from '../label/label.ts'
import type { KnownSample } from './known-samples.ts'

export type LabelMatch =
  | { readonly kind: 'known'; readonly sample: KnownSample; readonly note?: string }
  /** written like one of our labels, but the check digits do not fit: nothing is repaired, the nearest labels are offered */
  | { readonly kind: 'mis-keyed'; readonly advice: string; readonly nearest: readonly string[] }
  | { readonly kind: 'unknown'; readonly ours: boolean; readonly nearest: readonly string[] }
  | { readonly kind: 'missing' }

/** Finds the sample a laboratory's label belongs to. Answers are kept, so that a file of many rows asks each label once. */
export function labelMatcher(known: ReadonlyMap<string, KnownSample>): (written: string) => LabelMatch {
  const byFolded = new Map([...known.values()].map((sample) => [folded(sample.label), sample]))
  const prefixes = new Set(
    [...known.keys()].flatMap((label) => (readLabel(label).kind === 'ok' ? [label.slice(0, 3)] : [])),
  )
  const answers = new Map<string, LabelMatch>()
  let searches = 0
  const nearest = (written: string): readonly string[] => {
    searches += 1
    return searches > MOST_SEARCHES ? [] : nearestLabels(written, byFolded)
  }
  return (written) => {
    const answered = answers.get(written)
    if (answered !== undefined) return answered
    const answer = match(written, { byFolded, prefixes, nearest })
    answers.set(written, answer)
    return answer
  }
}

/** looking for near labels costs most; beyond this many unknown ones the file is not about our samples */
const MOST_SEARCHES = 300
const MOST_OFFERED = 3
const FARTHEST = 2

interface Search {
  readonly byFolded: ReadonlyMap<string, KnownSample>
  readonly prefixes: ReadonlySet<string>
  readonly nearest: (written: string) => readonly string[]
}

function match(written: string, { byFolded, prefixes, nearest }: Search): LabelMatch {
  if (written.trim() === '') return { kind: 'missing' }
  const exact = byFolded.get(folded(written))
  if (exact !== undefined) return { kind: 'known', sample: exact }
  const reading = readLabel(written)
  if (reading.kind === 'ok') {
    const sample = byFolded.get(folded(reading.label.id))
    if (sample !== undefined)
      return { kind: 'known', sample, ...(reading.note === undefined ? {} : { note: reading.note }) }
    return { kind: 'unknown', ours: prefixes.has(reading.label.prefix), nearest: nearest(written) }
  }
  const near = nearest(written)
  const likeOurs = near.length > 0 || [...prefixes].some((prefix) => folded(written).startsWith(prefix))
  if (likeOurs && prefixes.size > 0) return { kind: 'mis-keyed', advice: reading.advice, nearest: near }
  return { kind: 'unknown', ours: false, nearest: near }
}

function folded(label: string): string {
  return label
    .normalize('NFKC')
    .toUpperCase()
    .replaceAll(/[\s\p{Pd}_\u2212]/gu, '')
}

function nearestLabels(written: string, byFolded: ReadonlyMap<string, KnownSample>): string[] {
  const bare = folded(written)
  const found = [...byFolded].flatMap(([key, { label }]) => {
    if (readLabel(label).kind !== 'ok' || Math.abs(key.length - bare.length) > FARTHEST) return []
    const distance = editDistance(bare, key)
    return distance <= FARTHEST ? [{ label, distance }] : []
  })
  return found
    .sort((a, b) => a.distance - b.distance || a.label.localeCompare(b.label, 'en'))
    .slice(0, MOST_OFFERED)
    .map(({ label }) => label)
}

/** How many characters have to be changed, added, left out or swapped with their neighbour to turn one text into the other. */
export function editDistance(a: string, b: string): number {
  let [before, above]: [number[], number[]] = [[], Array.from({ length: b.length + 1 }, (_, index) => index)]
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i]
    for (let j = 1; j <= b.length; j += 1) {
      const change = (above[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1)
      const swapped =
        i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
          ? (before[j - 2] ?? 0) + 1
          : Number.POSITIVE_INFINITY
      row.push(Math.min(change, swapped, (above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1))
    }
    ;[before, above] = [above, row]
  }
  return above[b.length] ?? a.length
}
