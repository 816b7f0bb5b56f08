// One building in a process of its own: processor time of our day and of the engine's water age, by turns, and the most memory held.
// Run: node compared.ts SHAPE PIPES ROUNDS, and behind it "five" to leave out the engine’s steps of a minute, or "ours" to leave out the engine (for memory and profiles).
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { building, type Shape } from './buildings.ts'
import { engineMs, median, processorMs } from './processor-ms.ts'

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
/** The engine's short steps take so much longer that they are run in the first rounds only. */
const LONG_ROUNDS = Number(pipes) > 5000 ? 1 : 3
console.warn = () => undefined
const network = building({ pipes: Number(pipes), shape: shape as Shape, seed: 1 })

const ourDay = () => simulateDay(network, { mostDays: 1, stepMinutes: 1 })

ourDay()
/** Milliseconds of each round; NaN where a way was not run. */
interface Round {
  ours: number
  five: number
  usual: number
  one: number
}
const rows: Round[] = []
for (let round = 0; round < Number(rounds); round++) {
  const row: Round = { ours: processorMs(ourDay), five: Number.NaN, usual: Number.NaN, one: Number.NaN }
  rows.push(row)
  if (only === 'ours') continue
  row.five = engineMs(network, { stepMinutes: 5, quality: 'as long' })
  if (round >= LONG_ROUNDS) continue
  row.usual = engineMs(network, { stepMinutes: 5, quality: 'usual' })
  if (only !== 'five') row.one = engineMs(network, { stepMinutes: 1, quality: 'as long' })
}
const medianOf = (of: (row: Round) => number): number => median(rows.map(of).filter((value) => !Number.isNaN(value)))
const answer: Compared = {
  pipes: network.pipes.length,
  loops: network.pipes.length - network.nodes.length + 1,
  draws: network.outlets.reduce((sum, { draws }) => sum + draws.length, 0),
  oursMs: medianOf(({ ours }) => ours),
  fiveMinutesMs: medianOf(({ five }) => five),
  usualMs: medianOf(({ usual }) => usual),
  oneMinuteMs: medianOf(({ one }) => one),
  toFiveMinutes: medianOf(({ ours, five }) => ours / five),
  toUsual: medianOf(({ ours, usual }) => ours / usual),
  toOneMinute: medianOf(({ ours, one }) => ours / one),
  peakMb: process.resourceUsage().maxRSS / 1024,
}
process.stdout.write(`${JSON.stringify(answer)}\n`)
