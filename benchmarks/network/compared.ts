// One building in a process of its own: processor time of our day and of the engine's water age, by turns, and the most memory held.
// Run: node compared.ts SHAPE PIPES ROUNDS, and behind it "five" to leave out the engine’s steps of a minute, or "ours" to leave out the engine (for memory and profiles).
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { ageRun } from './age-run.ts'
import { building, type Shape } from './buildings.ts'

export interface Compared {
  pipes: number
  loops: number
  draws: number
  /** Milliseconds of processor time, medians. */
  oursMs: number
  fiveMinutesMs: number
  oneMinuteMs: number
  /** Medians of the ratios of each round. */
  toFiveMinutes: number
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

ourDay()
const rows: { ours: number; five: number; one: number }[] = []
for (let round = 0; round < Number(rounds); round++) {
  const ours = processorMs(ourDay)
  if (only === 'ours') {
    rows.push({ ours, five: Number.NaN, one: Number.NaN })
    continue
  }
  const five = ageRun(network, 5)
  const fiveMs = processorMs(five.run)
  five.close()
  if (only === 'five') {
    rows.push({ ours, five: fiveMs, one: Number.NaN })
    continue
  }
  const one = ageRun(network, 1)
  rows.push({ ours, five: fiveMs, one: processorMs(one.run) })
  one.close()
}
const answer: Compared = {
  pipes: network.pipes.length,
  loops: network.pipes.length - network.nodes.length + 1,
  draws: network.outlets.reduce((sum, { draws }) => sum + draws.length, 0),
  oursMs: median(rows.map(({ ours }) => ours)),
  fiveMinutesMs: median(rows.map(({ five }) => five)),
  oneMinuteMs: median(rows.map(({ one }) => one)),
  toFiveMinutes: median(rows.map(({ ours, five }) => ours / five)),
  toOneMinute: median(rows.map(({ ours, one }) => ours / one)),
  peakMb: process.resourceUsage().maxRSS / 1024,
}
process.stdout.write(`${JSON.stringify(answer)}\n`)
