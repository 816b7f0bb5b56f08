// The water of a building over a day beside the EPANET engine's water age of the same building. Ours: age, temperature, residual, growth and
// standing, coupled, in steps of a minute; the engine: age alone, in steps of five minutes (its quality in as long steps, and in its own choice
// of a tenth) and of one, the same draws averaged over each step.
// Each building is run in a process of its own, by turns; processor times, medians. Opening the engine's file is not counted.
import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import type { Measurement } from './measure.ts'
import type { Shape } from './network/buildings.ts'
import type { Compared } from './network/compared.ts'

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
/** Five times the pipes; more than this beyond five times the time is not linear growth. */
const MOST_GROWTH = 1.5

export async function measure(): Promise<Measurement[]> {
  const rows: Measurement[] = []
  for (const shape of Object.keys(SHAPES) as Shape[]) {
    const days = SIZES.map((pipes) => compared({ shape, pipes }))
    rows.push(...days.flatMap((day) => rowsOf(shape, day)), growthOf(shape, days))
  }
  return rows
}

function compared({ shape, pipes }: { shape: Shape; pipes: number }): Compared & { oursMb: number } {
  const script = join(import.meta.dirname, 'network', 'compared.ts')
  const run = (...args: string[]) =>
    JSON.parse(
      execFileSync(process.execPath, [script, shape, String(pipes), ...args], { encoding: 'utf8' }),
    ) as Compared
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

function growthOf(shape: Shape, days: readonly Compared[]): Measurement {
  const [, middle, large] = days
  if (middle === undefined || large === undefined) throw new RangeError('Cannot tell growth because a size is missing')
  const value = large.oursMs / large.pipes / (middle.oursMs / middle.pipes)
  return { what: `${SHAPES[shape]}: time a pipe of 10,000 over that of 2,000`, value, unit: '×', budget: MOST_GROWTH }
}
