// Runs every benchmark beside this file and prints one table. A benchmark is a file that exports `measure`. Ends with 1 when a budget is passed.
import { readdirSync } from 'node:fs'
import type { Measurement } from './measure.ts'

interface Benchmark {
  readonly measure?: () => Promise<readonly Measurement[]>
}

const files = readdirSync(import.meta.dirname).filter((name) => name.endsWith('.ts') && name !== 'run.ts')
const rows: Measurement[] = []
for (const file of files.toSorted()) {
  const { measure } = (await import(`./${file}`)) as Benchmark
  if (measure !== undefined) rows.push(...(await measure()))
}

const shown = (value: number): string => (value < 10 ? value.toFixed(2) : value.toFixed(0))
console.table(
  rows.map(({ what, value, unit, budget, ratio }) => ({
    what,
    value: `${shown(value)} ${unit}`,
    budget: budget === undefined ? '' : `${budget} ${unit}`,
    ratio: ratio === undefined ? '' : `${shown(ratio.times)} × ${ratio.to}`,
    kept: budget === undefined ? '' : value <= budget ? 'yes' : 'NO',
  })),
)
process.exitCode = rows.every(({ value, budget }) => budget === undefined || value <= budget) ? 0 : 1
