import traps from '@rillmark/reference/results/traps.json' with { type: 'json' }
import { type ConcentrationUnit, withoutNoise } from '../units/quantity.ts'
import type { ReadResult, ReadRow } from './read-row.ts'
import { addReason, type Reasons } from './reason.ts'
import { columnsOf } from './trap-dates.ts'

interface Count {
  readonly row: number
  readonly value: number
  readonly unit: ConcentrationUnit
  readonly limit: number | undefined
}

/**
 * Counts that are half of a detection limit: some laboratories and authors write that in place of "less than". Found where the limit is
 * stated, or where the smallest count of a column recurs, nothing is given as below a limit, and the next count is at least twice it.
 * The value stays what it is; it is marked, and counts as below the limit where positives are counted.
 */
export function halfLimits(rows: readonly ReadRow[], reasons: Reasons): void {
  for (const column of columnsOf(rows)) {
    const results = rows.flatMap(({ row, results: all }) =>
      all.filter((result) => result.column === column).map((result) => ({ row, result })),
    )
    const counts = results.flatMap(({ row, result }) => countOf(row, result))
    const limits = new Set(results.flatMap(({ result }) => limitsOf(result)))
    const half = limits.size === 0 ? recurringLeast(counts) : undefined
    for (const count of counts) {
      const limit =
        half === count.value
          ? withoutNoise(2 * half)
          : [count.limit, ...limits].find((each) => each !== undefined && withoutNoise(each / 2) === count.value)
      if (limit === undefined) continue
      const known =
        half === count.value
          ? `the least count here, ${count.value}, stands in ${counts.filter(({ value }) => value === half).length} rows and the next is at least twice it`
          : `the limit is ${limit} ${count.unit}`
      const words = `${known}: it looks like half of a detection limit of ${limit} ${count.unit}. Kept as written, counted as below the limit`
      addReason(reasons, {
        row: count.row,
        column,
        trap: 'half the limit',
        blocks: false,
        words,
        suggestion: { kind: 'below', limit, unit: count.unit },
      })
    }
  }
}

function countOf(row: number, { reading, limit }: ReadResult): Count[] {
  return reading.kind === 'value' && reading.value.kind === 'count'
    ? [{ row, value: reading.value.value, unit: reading.value.unit, limit }]
    : []
}

function limitsOf({ reading, limit }: ReadResult): number[] {
  const own =
    reading.kind === 'value' && (reading.value.kind === 'below' || reading.value.kind === 'not-detected')
      ? reading.value.limit
      : undefined
  return [own, limit].filter((each) => each !== undefined)
}

function recurringLeast(counts: readonly Count[]): number | undefined {
  const values = counts.map(({ value }) => value).sort((a, b) => a - b)
  const [least] = values
  if (least === undefined) return undefined
  const times = values.filter((value) => value === least).length
  const next = values.find((value) => value > least)
  const { repeats, share, gap } = traps.halfLimit
  const often = times >= repeats.value && times >= share.value * values.length
  return often && next !== undefined && next >= gap.value * least ? least : undefined
}
