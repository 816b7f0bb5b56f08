import type { SimulatedDay } from '@rillmark/science/network/day-result.ts'
import type { Network } from '@rillmark/science/network/network.ts'
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { type Constituent, type EngineAnswer, type EngineRun, runEngine } from './engine.ts'

export interface Difference {
  constituent: Constituent
  /** The engine's greatest value less its least, over all places and times compared. */
  range: number
  /** Greatest difference of any place and time, and the greatest mean over time of any place, as shares of the range. */
  most: number
  mostOnAverage: number
  cells: number
}

const CONSTITUENTS: readonly Constituent[] = ['age', 'bulk', 'wall', 'trace']
const MINUTES_PER_DAY = 1440
/** Below this flow (L/min) the engine takes a pipe's water for standing. */
const ENGINE_STANDS_L_PER_MIN = 0.019
/** A place is compared while so much water comes to it. */
const COMPARED_L_PER_MIN = 0.1
/** The engine's day repeats when nothing compared moves by more than this share of the range. */
const REPEATS = 0.002
const MOST_SPANS = 24

export interface Comparison {
  network: Network
  run: Omit<EngineRun, 'constituents' | 'spans'>
  /** Minutes a step of ours, and a step of its mains where that is longer. */
  stepMinutes: number
  mainMinutes?: number
  /** False where flows go another way in warm water, whose viscosity the engine does not know. */
  trace: boolean
}

/** Our simulation beside the engine's, by constituent, at every place to which water comes. */
export function compare({ network, run, stepMinutes, mainMinutes = stepMinutes, trace }: Comparison): Difference[] {
  const constituents = CONSTITUENTS.filter((constituent) => trace || constituent !== 'trace')
  const theirs = untilRepeating(network, { ...run, constituents })
  const slots = MINUTES_PER_DAY / run.stepMinutes
  const days = oursBy(network, { slots, stepMinutes, mainMinutes, trace })
  const cells = compared(network, theirs)
  return constituents.map((constituent) => {
    const ours = oursOf(days, { constituent, ambientC: run.ambientC })
    return difference({ constituent, ours, theirs, cells, slots })
  })
}

/** The day with bulk decay, in warm water where the trace is wanted, and the day with the wall alone in water as warm as the air. */
function oursBy(
  network: Network,
  { trace, ...options }: { slots: number; stepMinutes: number; mainMinutes: number; trace: boolean },
): Ours {
  const { chemistry } = network
  const nodes = network.nodes.map((node) =>
    node.kind === 'source' ? { ...node, temperatureC: chemistry.referenceC } : node,
  )
  const bulk = { ...network, ...(!trace && { nodes }), chemistry: { ...chemistry, wallMPerHour: 0 } }
  const wall = { ...network, nodes, chemistry: { ...chemistry, bulkPerHour: 0 } }
  return { network, bulkOnly: simulateDay(bulk, options), wallOnly: simulateDay(wall, options), slots: options.slots }
}

interface Ours {
  network: Network
  bulkOnly: SimulatedDay
  wallOnly: SimulatedDay
  slots: number
}

type Quantity = 'ageHours' | 'residualMgPerL' | 'temperatureC'
const QUANTITY: Record<Constituent, Quantity> = {
  age: 'ageHours',
  bulk: 'residualMgPerL',
  wall: 'residualMgPerL',
  trace: 'temperatureC',
}

/** What comes to each node in each slot: the water leaving the pipes that bring it, by their flow; of a vessel, what it holds. */
function oursOf(
  { network: { nodes, pipes }, bulkOnly, wallOnly, slots }: Ours,
  { constituent, ambientC }: { constituent: Constituent; ambientC: number },
): Float64Array {
  const { series } = constituent === 'wall' ? wallOnly : bulkOnly
  if (series === undefined) throw new RangeError('Cannot compare because the day has no curves')
  const ends = series.pipes[QUANTITY[constituent]]
  const [sums, litres] = [new Float64Array(nodes.length * slots), new Float64Array(nodes.length * slots)]
  for (const [at, { from, to }] of pipes.entries())
    for (let slot = 0; slot < slots; slot++) {
      const flow = series.pipes.flowLPerMin[at * slots + slot] ?? 0
      const cell = (flow > 0 ? to : from) * slots + slot
      sums[cell] = (sums[cell] ?? 0) + Math.abs(flow) * (ends[at * slots + slot] ?? 0)
      litres[cell] = (litres[cell] ?? 0) + Math.abs(flow)
    }
  const held = series.nodes[QUANTITY[constituent]]
  return sums.map((sum, cell) => {
    const vessel = nodes[Math.floor(cell / slots)]?.kind === 'vessel'
    const value = vessel ? (held[cell] ?? 0) : sum / (litres[cell] ?? 0)
    return constituent === 'trace' ? value - ambientC : value
  })
}

function untilRepeating(network: Network, run: Omit<EngineRun, 'spans'>): EngineAnswer {
  for (let spans = 3; spans <= MOST_SPANS; spans *= 2) {
    const answer = runEngine(network, { ...run, spans })
    if (repeats(answer, compared(network, answer))) return answer
  }
  throw new RangeError(`Cannot compare because the engine's day does not repeat: got ${MOST_SPANS} spans`)
}

function repeats({ records }: EngineAnswer, cells: readonly number[]): boolean {
  return Object.values(records).every(({ values, before }) => {
    const range = rangeOf(values, cells)
    return cells.every((cell) => Math.abs((values[cell] ?? 0) - (before[cell] ?? 0)) <= REPEATS * range)
  })
}

function rangeOf(values: Float64Array, cells: readonly number[]): number {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const cell of cells) {
    least = Math.min(least, values[cell] ?? 0)
    most = Math.max(most, values[cell] ?? 0)
  }
  return most - least
}

/** Places (node · steps + step) to which enough water comes, none of it through a pipe that the engine takes for standing. */
function compared({ nodes, pipes }: Network, { flows, steps }: EngineAnswer): number[] {
  const comes = new Float64Array(nodes.length * steps)
  for (const [at, { from, to }] of pipes.entries())
    for (let step = 0; step < steps; step++) {
      const flow = flows[at * steps + step] ?? 0
      const cell = (flow > 0 ? to : from) * steps + step
      if (Math.abs(flow) >= ENGINE_STANDS_L_PER_MIN) comes[cell] = (comes[cell] ?? 0) + Math.abs(flow)
    }
  return [...comes.keys()].filter(
    (cell) => (comes[cell] ?? 0) >= COMPARED_L_PER_MIN && nodes[Math.floor(cell / steps)]?.kind !== 'source',
  )
}

function difference({
  constituent,
  ours,
  theirs: { records, steps },
  cells,
  slots,
}: {
  constituent: Constituent
  ours: Float64Array
  theirs: EngineAnswer
  cells: readonly number[]
  slots: number
}): Difference {
  const values = records[constituent]?.values ?? new Float64Array(0)
  const range = rangeOf(values, cells)
  const sums = new Map<number, { sum: number; count: number }>()
  let most = 0
  for (const cell of cells) {
    const [node, step] = [Math.floor(cell / steps), cell % steps]
    // A span shorter than a day stands for a steady state: the last of our slots is as good as any.
    const slot = steps === slots ? step : slots - 1
    const apart = Math.abs((ours[node * slots + slot] ?? Number.NaN) - (values[cell] ?? 0))
    const row = sums.get(node) ?? { sum: 0, count: 0 }
    sums.set(node, { sum: row.sum + apart, count: row.count + 1 })
    most = Number.isNaN(apart) || apart > most ? apart : most
  }
  const mostOnAverage = Math.max(...[...sums.values()].map(({ sum, count }) => sum / count))
  return { constituent, range, most: most / range, mostOnAverage: mostOnAverage / range, cells: cells.length }
}
