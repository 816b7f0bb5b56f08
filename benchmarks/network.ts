// The water of a building over a day beside the EPANET engine's water age of the same building. Ours: age, temperature, residual, growth and
// standing, coupled, in steps of a minute, above 1,000 pipes of five for the mains; the engine: age alone, in steps of five minutes (its quality
// in as long steps, and in its own choice of a tenth) and of one, the same draws averaged over each step.
// Each building is run in a process of its own, by turns; processor times, medians. Opening the engine's file is not counted. How the cost grows with
// the building is told by runs of several sizes in one process (`network/grown.ts`).
import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import type { Measurement } from './measure.ts'
import type { Shape } from './network/buildings.ts'
import type { Compared } from './network/compared.ts'
import type { Grown } from './network/grown.ts'

const SIZES = [500, 2000, 10_000]
const SHAPES: Record<Shape, string> = {
  tree: 'no loops',
  rings: 'pumped returns and rings',
  returns: 'returns of known flow',
}
/** Enough that the median is of a day run warm: ours is compiled while it runs, the engine was before. */
const ROUNDS = 15
const MANY = 5000
/** Networks of more pipes than this must take no longer than the engine does in 5-minute steps. */
const JUDGED = 1000
const MOST_MEMORY_MB = 1500
/** A pipe of a building five times as large may cost this many times as much: what is worked on leaves the processor's nearest memory. More is not linear growth. */
const MOST_GROWTH = 1.5

export async function measure(): Promise<Measurement[]> {
  const rows: Measurement[] = []
  for (const shape of Object.keys(SHAPES) as Shape[]) {
    const days = SIZES.map((pipes) => compared({ shape, pipes }))
    rows.push(...days.flatMap((day) => rowsOf(shape, day)), growthOf(shape))
  }
  return rows
}

function compared({ shape, pipes }: { shape: Shape; pipes: number }): Compared & { oursMb: number } {
  const run = (...args: string[]) => inOwnProcess('compared.ts', [shape, String(pipes), ...args]) as Compared
  // With a step of a minute the engine takes half a minute a run of so many pipes.
  const asked = [String(ROUNDS), ...(pipes > MANY ? ['five'] : [])]
  return { ...run(...asked), oursMb: run('1', 'ours').peakMb }
}

function rowsOf(shape: Shape, day: Compared & { oursMb: number }): Measurement[] {
  const what = `a day of ${day.pipes.toLocaleString('en')} pipes, ${SHAPES[shape]} (${day.loops} loops, ${day.draws.toLocaleString('en')} draws)`
  const row = { what, value: day.oursMs, unit: 'ms' }
  // below that size both take a tenth of a second, most of it to begin
  const limit = day.pipes > JUDGED ? { atMost: 1 } : {}
  return [
    { ...row, ratio: { to: 'the engine’s age alone, 5-minute steps', times: day.toFiveMinutes, ...limit } },
    { ...row, ratio: { to: 'the same, quality in its usual half-minute steps', times: day.toUsual } },
    ...(day.pipes > MANY
      ? []
      : [{ ...row, ratio: { to: 'the engine’s age alone, 1-minute steps', times: day.toOneMinute, atMost: 1 } }]),
    { what: `${what}, most memory`, value: day.oursMb, unit: 'MB', budget: MOST_MEMORY_MB },
  ]
}

function growthOf(shape: Shape): Measurement {
  const sizes = inOwnProcess('grown.ts', [shape, String(ROUNDS)]) as Grown[]
  const [first, last] = [sizes[0], sizes.at(-1)]
  if (first === undefined || last === undefined) throw new RangeError('Cannot tell growth because a size is missing')
  const value = last.ours.least / first.ours.least
  const moves = sizes.map((size) => size.moves.toFixed(1)).join(', ')
  const times = sizes.map(({ ours }) => `${ours.least.toFixed(0)} (${ours.median.toFixed(0)})`).join(', ')
  return {
    what: `${SHAPES[shape]}: time a pipe of 10,000 over that of 2,000; at 2,000, 5,000, 10,000 least (median) ${times} µs a pipe, moves of water a pipe ${moves}`,
    value,
    unit: '×',
    budget: MOST_GROWTH,
    ratio: { to: 'the engine’s growth', times: value / (last.engine.least / first.engine.least), atMost: 1 },
  }
}

function inOwnProcess(script: string, args: readonly string[]): unknown {
  const path = join(import.meta.dirname, 'network', script)
  return JSON.parse(execFileSync(process.execPath, [path, ...args], { encoding: 'utf8' }))
}
