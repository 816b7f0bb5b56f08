// One building in a process of its own: processor time of our day and of the engine's water age, by turns, and the most memory held.
// Run: node compared.ts SHAPE PIPES ROUNDS, and behind it "five" to leave out the engine’s steps of a minute, or "ours" to leave out the engine (for memory and profiles).
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { ageRun, type EngineSteps } from './age-run.ts'
import { building, type Shape } from './buildings.ts'

export interface Compared {
  pipes: number
  loops: number
  draws: number
  /** Milliseconds of processor time, medians. */
  oursMs: number
  fiveMinutesMs: number
  usualMs: number
  oneMinuteMs: number
  /** Medians of the ratios of each round. */
  toFiveMinutes: number
  /** Steps of five minutes, and of half a minute for the quality: the engine's own choice. */
  toUsual: number
  toOneMinute: number
  /** The most memory of the whole process, MB. */
  peakMb: number
}

const [shape, pipes, rounds, only] = process.argv.slice(2)
console.warn = () => undefined
const network = building({ pipes: Number(pipes), shape: shape as Shape, seed: 1 })

function processorMs(run: () => unknown): number {
  const began = process.cpuUsage()
  run()
  const { user, system } = process.cpuUsage(began)
  return (user + system) / 1000
}

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0
const ourDay = () => simulateDay(network, { mostDays: 1, stepMinutes: 1 })

const engineMs = (steps: EngineSteps): number => {
  const engine = ageRun(network, steps)
  const took = processorMs(engine.run)
  engine.close()
  return took
}

ourDay()
const rows: { ours: number; five: number; usual: number; one: number }[] = []
for (let round = 0; round < Number(rounds); round++) {
  const row = { ours: processorMs(ourDay), five: Number.NaN, usual: Number.NaN, one: Number.NaN }
  rows.push(row)
  if (only === 'ours') continue
  row.five = engineMs({ stepMinutes: 5, quality: 'as long' })
  row.usual = engineMs({ stepMinutes: 5, quality: 'usual' })
  if (only !== 'five') row.one = engineMs({ stepMinutes: 1, quality: 'as long' })
}
const answer: Compared = {
  pipes: network.pipes.length,
  loops: network.pipes.length - network.nodes.length + 1,
  draws: network.outlets.reduce((sum, { draws }) => sum + draws.length, 0),
  oursMs: median(rows.map(({ ours }) => ours)),
  fiveMinutesMs: median(rows.map(({ five }) => five)),
  usualMs: median(rows.map(({ usual }) => usual)),
  oneMinuteMs: median(rows.map(({ one }) => one)),
  toFiveMinutes: median(rows.map(({ ours, five }) => ours / five)),
  toUsual: median(rows.map(({ ours, usual }) => ours / usual)),
  toOneMinute: median(rows.map(({ ours, one }) => ours / one)),
  peakMb: process.resourceUsage().maxRSS / 1024,
}
process.stdout.write(`${JSON.stringify(answer)}\n`)
