import type { Trap } from '@rillmark/casebook/results/read-row.ts'
import type { ReviewedRow } from '@rillmark/casebook/results/review.ts'

/** Rows that wait for the same reasons, settled together where one answer fits all. */
export interface RowGroup {
  readonly traps: readonly Trap[]
  readonly rows: readonly ReviewedRow[]
}

export function waitingGroups(rows: readonly ReviewedRow[]): RowGroup[] {
  const groups = new Map<string, { traps: Trap[]; rows: ReviewedRow[] }>()
  for (const row of rows) {
    if (row.state !== 'attention') continue
    const traps = [...new Set(row.reasons.filter(({ blocks }) => blocks).map(({ trap }) => trap))]
    const key = traps.join('|')
    const group = groups.get(key) ?? { traps, rows: [] }
    group.rows.push(row)
    groups.set(key, group)
  }
  return [...groups.values()].sort((a, b) => b.rows.length - a.rows.length)
}

/** Whether "as read" has a meaning: every value could be read and the sample is known. */
export function canAccept({ results, sample, registers }: ReviewedRow): boolean {
  return results.length > 0 && results.every(({ value }) => value !== undefined) && (sample !== undefined || registers)
}
