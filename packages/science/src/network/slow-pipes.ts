/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { Network } from './network.ts'
import type { NodeWater } from './node-water.ts'
import { AGE, ENTRY_FROM, ENTRY_TO, type ParcelStore, STOOD, VOLUME_L, WALL_FROM, WALL_TO } from './parcel-store.ts'
import type { PipeRates } from './pipe-rates.ts'
import type { WallExposure } from './wall-exposure.ts'
import { EXPOSURE, WATER_FIELDS, type WaterChange } from './water-change.ts'

const MINUTES_PER_DAY = 1440
/** Water that takes longer through a pipe than this is slow: its first guess would take as long to be forgotten. */
const SLOW_MINUTES = 1.5 * MINUTES_PER_DAY

interface Parts {
  network: Network
  rates: PipeRates
  change: WaterChange
  store: ParcelStore
  nodes: NodeWater
  wall: WallExposure
  /** Where 1, no water ever moves. */
  still: Uint8Array
  /** Mean flow of the day that was, L/min along from → to, and minutes with flow. */
  flowOf: (pipe: number) => number
  movedMinutes: (pipe: number) => number
  /** The clock of standing of each pipe at the moment. */
  stoodBy: (pipe: number) => number
  moment: number
  ageCapMinutes: number
}

/**
 * Fills slow pipes anew, as days like the one that ran would have filled them: a parcel for each day's water, each a day older than
 * the one behind it, so that the next day only moves them on by one. Mixers draw otherwise than was guessed at the start, and a
 * branch may turn over in weeks.
 *
 * @source none: it computes nothing of the trade
 */
export function refillSlowPipes(parts: Parts): void {
  const { network, rates, still } = parts
  for (let pipe = 0; pipe < network.pipes.length; pipe++) {
    const flow = parts.flowOf(pipe)
    const minutes = rates.volumeL[pipe]! / Math.abs(flow)
    if (still[pipe] === 0 && flow !== 0 && minutes > SLOW_MINUTES) refill(parts, { pipe, flow })
  }
}

function refill(parts: Parts, { pipe, flow }: { pipe: number; flow: number }): void {
  const { store, rates, ageCapMinutes } = parts
  const forward = flow > 0
  const dayL = Math.abs(flow) * MINUTES_PER_DAY
  const newest = newestMinutes(parts, { pipe, forward, dayL })
  const days = Math.min(Math.ceil(rates.volumeL[pipe]! / dayL), Math.ceil(ageCapMinutes / MINUTES_PER_DAY))
  store.clear(pipe)
  let leftL = rates.volumeL[pipe]!
  for (let day = 0; day < days; day++) {
    // the last parcel is all that is left, whether part of a day's water or what is older than is told
    const litres = day === days - 1 ? leftL : dayL
    leftL -= litres
    const at = forward ? store.addTo(pipe) : store.addFrom(pipe)
    makeOlder(parts, { pipe, forward, spent: Math.min(newest + day * MINUTES_PER_DAY, ageCapMinutes) })
    store.data[at + VOLUME_L] = litres
    keep(parts, { pipe, at })
  }
}

/** How long ago the water of the last day came in, on the mean. */
function newestMinutes(
  { store, moment }: Parts,
  { pipe, forward, dayL }: { pipe: number; forward: boolean; dayL: number },
): number {
  let litres = 0
  let sum = 0
  for (let nth = store.count[pipe]! - 1; nth >= 0 && litres < dayL; nth--) {
    const at = store.at(pipe, forward ? nth : store.count[pipe]! - 1 - nth)
    const take = Math.min(store.data[at + VOLUME_L]!, dayL - litres)
    sum += take * Math.max(0, moment - (store.data[at + ENTRY_TO]! + store.data[at + ENTRY_FROM]!) / 2)
    litres += take
  }
  return Math.min(sum / litres, MINUTES_PER_DAY)
}

/** Takes in hand what the upstream node sends, after so many minutes in the pipe. */
function makeOlder(parts: Parts, { pipe, forward, spent }: { pipe: number; forward: boolean; spent: number }): void {
  const { change, nodes, network } = parts
  const { from, to } = network.pipes[pipe]!
  const upstream = (forward ? from : to) * WATER_FIELDS
  for (let field = 0; field < WATER_FIELDS; field++) change.water[field] = nodes.sent[upstream + field]!
  change.exposure[EXPOSURE.spent] = spent
  change.exposure[EXPOSURE.stood] = spent * (1 - parts.movedMinutes(pipe) / MINUTES_PER_DAY)
  change.exposure[EXPOSURE.wall] = 0
  change.stay(pipe)
}

/** Keeps the water in hand as a parcel's, as it is at the moment. */
function keep({ store, change, wall, stoodBy, moment }: Parts, { pipe, at }: { pipe: number; at: number }): void {
  const { data } = store
  for (let field = 0; field < WATER_FIELDS; field++) data[at + AGE + field] = change.water[field]!
  data[at + ENTRY_TO] = moment
  data[at + ENTRY_FROM] = moment
  data[at + WALL_TO] = wall.metIn(pipe)
  data[at + WALL_FROM] = wall.metIn(pipe)
  data[at + STOOD] = stoodBy(pipe)
}
