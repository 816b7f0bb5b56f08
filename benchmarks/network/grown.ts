// How the cost of a day grows with the building: processor time a pipe of ours and of the engine's water age (5-minute steps) at several
// sizes, by turns in one process. Run: node grown.ts SHAPE ROUNDS
// The least of the rounds counts: what the work itself takes. The large buildings fill the memory that all who are on a machine share, so
// that their other rounds tell as much of the others; the medians are told beside.
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { Transport } from '@rillmark/science/network/transport.ts'
import { building, type Shape } from './buildings.ts'
import { engineMs, median, processorMs } from './processor-ms.ts'

const SIZES = [2000, 5000, 10_000]

/** Of one size: microseconds a pipe, least and median of the rounds; how often water was moved through a pipe in the day, on the mean of the pipes. */
export interface Grown {
  pipes: number
  moves: number
  ours: { least: number; median: number }
  engine: { least: number; median: number }
}

const [shape, rounds] = process.argv.slice(2)
console.warn = () => undefined
const sizes = SIZES.map((pipes) => building({ pipes, shape: shape as Shape, seed: 1 })).map((network) => ({
  network,
  ours: [] as number[],
  engine: [] as number[],
}))
const ourDay = ({ network }: (typeof sizes)[number]) => simulateDay(network, { mostDays: 1, stepMinutes: 1 })

for (const size of sizes) ourDay(size)
for (let round = 0; round < Number(rounds); round++)
  for (const size of sizes) {
    size.ours.push(processorMs(() => ourDay(size)))
    size.engine.push(engineMs(size.network, { stepMinutes: 5, quality: 'as long' }))
  }

const perPipe = (ms: readonly number[], pipes: number) => ({
  least: (Math.min(...ms) * 1000) / pipes,
  median: (median(ms) * 1000) / pipes,
})
const answer: Grown[] = sizes.map((size) => {
  const pipes = size.network.pipes.length
  return {
    pipes,
    moves: movesOf(() => ourDay(size)) / pipes,
    ours: perPipe(size.ours, pipes),
    engine: perPipe(size.engine, pipes),
  }
})
process.stdout.write(`${JSON.stringify(answer)}\n`)

/** How often water was moved through a pipe in a run: the work that grows with the building. */
function movesOf(run: () => unknown): number {
  const { step } = Transport.prototype
  let moves = 0
  Transport.prototype.step = function counted(list, at) {
    for (let place = list.nextRunning(0); place < list.pipes.length; place = list.nextRunning(place + 1)) moves++
    step.call(this, list, at)
  }
  run()
  Transport.prototype.step = step
  return moves
}
