// How near to the truth the two come that `network` times: water age at the outlets, ours in steps of a minute and the engine's in steps of five
// with its quality in steps as long or of half a minute, against the engine in steps of a minute with its quality in steps of seconds.
import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import type { Measurement } from './measure.ts'
import type { AgeErrors } from './network/age-error.ts'
import type { Shape } from './network/buildings.ts'

/** Small but for those without loops, for the yardstick takes its time; with rings most of all. */
const BUILDINGS: readonly { shape: Shape; name: string; pipes: number }[] = [
  { shape: 'tree', name: 'no loops', pipes: 500 },
  { shape: 'tree', name: 'no loops', pipes: 2000 },
  { shape: 'rings', name: 'pumped returns and rings', pipes: 300 },
  { shape: 'returns', name: 'returns of known flow', pipes: 500 },
]
const DAYS = 2

export async function measure(): Promise<Measurement[]> {
  return BUILDINGS.flatMap(({ shape, name, pipes }) => {
    const script = join(import.meta.dirname, 'network', 'age-error.ts')
    const args = [script, shape, String(pipes), String(DAYS)]
    const found = JSON.parse(execFileSync(process.execPath, args, { encoding: 'utf8' })) as AgeErrors
    const ways = {
      'ours, 1-minute steps': found.ours,
      'ours, mains in 5-minute steps': found.oursLong,
      'the engine, 5-minute steps': found.asLong,
      'the engine, 5-minute steps, quality in half-minute steps': found.usual,
      'the yardstick in steps twice as long': found.yardstick,
    }
    return Object.entries(ways).map(([way, { mean, largest }]) => ({
      what: `age at ${found.outlets} outlets of ${found.pipes} pipes, ${name}, off on the mean: ${way}`,
      value: mean,
      unit: 'min',
      note: `largest ${largest.toFixed(1)} min; age on the mean ${found.meanMinutes.toFixed(0)} min`,
    }))
  })
}
