// Runs every benchmark beside this file and prints one table. A benchmark is a file that exports `measure`. Ends with 1 when a budget is passed or a
// peer that must not be faster is. `node benchmarks/run.ts NAME …` runs those files alone.
import { readdirSync } from 'node:fs'
import type { Measurement } from './measure.ts'

interface Benchmark {
  readonly measure?: () => Promise<readonly Measurement[]>
}

const asked = process.argv.slice(2)
const files = readdirSync(import.meta.dirname)
  .filter((name) => name.endsWith('.ts') && name !== 'run.ts')
  .filter((name) => asked.length === 0 || asked.includes(name.replace('.ts', '')))
const rows: Measurement[] = []
for (const file of files.toSorted()) {
  const { measure } = (await import(`./${file}`)) as Benchmark
  if (measure !== undefined) rows.push(...(await measure()))
}

const shown = (value: number): string =>
  value < 1 ? value.toPrecision(2) : value < 10 ? value.toFixed(2) : value.toFixed(0)
const kept = ({ value, budget, ratio }: Measurement): boolean =>
  (budget === undefined || value <= budget) && (ratio?.atMost === undefined || ratio.times <= ratio.atMost)
const judged = ({ budget, ratio }: Measurement): boolean => budget !== undefined || ratio?.atMost !== undefined
console.table(
  rows.map((row) => ({
    what: row.what,
    value: `${shown(row.value)} ${row.unit}`,
    budget: row.budget === undefined ? '' : `${row.budget} ${row.unit}`,
    beside: row.ratio === undefined ? (row.note ?? '') : `${shown(row.ratio.times)} × ${row.ratio.to}`,
    kept: judged(row) ? (kept(row) ? 'yes' : 'NO') : '',
  })),
)
process.exitCode = rows.every(kept) ? 0 : 1
