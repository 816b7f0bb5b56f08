// The largest inputs the calculations take, each in a cold process: time and the most memory held are bounded.
import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import type { Measurement } from '../measure.ts'

const EDGES = [
  { name: 'wells', what: 'most probable number of a million wells of 10,000 volumes', budgetMs: 2000, budgetMb: 500 },
  { name: 'table', what: 'table of two rows with a million in every cell', budgetMs: 2000, budgetMb: 500 },
  { name: 'alleles', what: 'allele differences of 5,000 isolates at 3,000 loci', budgetMs: 30_000, budgetMb: 2000 },
]

export function edgeRows(): Measurement[] {
  return EDGES.flatMap(({ name, what, budgetMs, budgetMb }) => {
    const out = execFileSync(process.execPath, [join(import.meta.dirname, 'edge.ts'), name], { encoding: 'utf8' })
    const { ms, peakMb } = JSON.parse(out) as { ms: number; peakMb: number }
    return [
      { what: `${what}, cold`, value: ms, unit: 'ms', budget: budgetMs },
      { what: `${what}, most memory`, value: peakMb, unit: 'MB', budget: budgetMb },
    ]
  })
}
