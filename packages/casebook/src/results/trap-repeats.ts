import traps from '@rillmark/reference/results/traps.json' with { type: 'json' }
import type { ReadRow } from './read-row.ts'
import { addReason, type Reasons } from './reason.ts'

/** The same label and method twice in one file. */
export function repeatedInFile(rows: readonly ReadRow[], reasons: Reasons): void {
  const first = new Map<string, number>()
  for (const { row, label, results } of rows) {
    if (label === '') continue
    for (const { method, target, column, reading } of results) {
      if (reading.kind === 'empty') continue
      const key = JSON.stringify([label, method, target])
      const earlier = first.get(key)
      if (earlier === undefined) first.set(key, row)
      else
        addReason(reasons, {
          row,
          column,
          trap: 'repeated in the file',
          blocks: true,
          words: `row ${earlier} reports the same sample by the same method`,
        })
    }
  }
}

/**
 * Rows that carry the numbers of an earlier row under another name: at least three numbers in common (readings and results), all equal,
 * or one of them within 5 %. Runs of such rows point at a block pasted twice.
 */
export function nearRepeats(rows: readonly ReadRow[], reasons: Reasons): void {
  const repeats = repeatPairs(rows)
  for (const [index, earlier] of repeats) {
    const [row, first] = [rows[index], rows[earlier]]
    if (row === undefined || first === undefined) continue
    const run = runAround(repeats, { index, earlier })
    const block =
      run.length > 1
        ? `; rows ${rowAt(rows, run.from)} to ${rowAt(rows, run.from + run.length - 1)} repeat a block from row ${rowAt(rows, run.from - run.offset)}`
        : ''
    addReason(reasons, {
      row: row.row,
      trap: 'near repeat',
      blocks: true,
      words: `the numbers are those of row ${first.row}${block}`,
    })
  }
}

type Fingerprint = readonly number[]

/** index of a row → index of the earlier row whose numbers it carries */
function repeatPairs(rows: readonly ReadRow[]): Map<number, number> {
  const seen = new Map<string, number[]>()
  const prints = rows.map(fingerprint)
  const pairs = new Map<number, number>()
  for (const [index, print] of prints.entries()) {
    if (print.length < traps.nearRepeat.numbers.value) continue
    const keys = keysOf(print)
    const candidates = keys.flatMap((key) => seen.get(key) ?? [])
    const earlier = candidates.filter((each) => isNear(print, prints[each] ?? [])).sort((a, b) => a - b)[0]
    if (earlier !== undefined && rows[earlier]?.label !== rows[index]?.label) pairs.set(index, earlier)
    for (const key of keys) seen.set(key, [...(seen.get(key) ?? []).slice(-MOST_CANDIDATES), index])
  }
  return pairs
}

const MOST_CANDIDATES = 20

function fingerprint({ temperatureC, results }: ReadRow): Fingerprint {
  const counts = results.flatMap(({ reading }) =>
    reading.kind === 'value' && reading.value.kind === 'count' ? [reading.value.value] : [],
  )
  return [...(temperatureC === undefined ? [] : [temperatureC]), ...counts]
}

/** Two prints that differ in one number at most share the key that leaves it out. */
function keysOf(print: Fingerprint): string[] {
  return print.map(
    (_, without) => `${without}:${print.map((value, index) => (index === without ? '*' : value)).join('|')}`,
  )
}

function isNear(a: Fingerprint, b: Fingerprint): boolean {
  if (a.length !== b.length) return false
  const different = a
    .map((value, index) => Math.abs(value - (b[index] ?? 0)) / Math.max(value, b[index] ?? 0))
    .filter((share) => share > 0)
  return different.length === 0 || (different.length === 1 && (different[0] ?? 1) <= traps.nearRepeat.tolerance.value)
}

function runAround(
  pairs: ReadonlyMap<number, number>,
  { index, earlier }: { index: number; earlier: number },
): { from: number; length: number; offset: number } {
  const offset = index - earlier
  let [from, to] = [index, index]
  while (pairs.get(from - 1) === from - 1 - offset) from -= 1
  while (pairs.get(to + 1) === to + 1 - offset) to += 1
  return { from, length: to - from + 1, offset }
}

function rowAt(rows: readonly ReadRow[], index: number): number {
  return rows[index]?.row ?? index
}
