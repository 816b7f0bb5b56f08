/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { BuildingRun, type DayTotals } from './building-run.ts'
import type { SimulatedDay, SimulationOptions } from './day-result.ts'
import type { Network } from './network.ts'
import { describeDay } from './describe-day.ts'
import { usualMainMinutes } from './long-steps.ts'
import type { PlaceRecord } from './place-record.ts'
import { asNumberedBefore, inRunningOrder } from './running-order.ts'
import { WATER, WATER_FIELDS } from './water-change.ts'

const MINUTES_PER_DAY = 1440
const MOST_DAYS = 60
/** Days (the first being 0) after which slow pipes are filled anew: mixers are by then near to what they draw. */
const REFILLS = new Set([1, 4])
/** A day repeats where no place's means moved by more: minutes or share of the age, K, share of the largest residual, growth. */
const REPEATS = { minutes: 1.2, age: 0.005, kelvin: 0.05, residual: 0.002, growth: 0.002 }

/**
 * A day of a building's water that repeats itself: age (hours), temperature (°C), residual (mg/L) and growth (0 to 1) of every pipe,
 * node and spout, with flows (L/min), heat (W) and balances.
 * Wanted to say where water is warm, old and without residual, and so where to look first.
 *
 * Plug flow: water leaves a pipe in the order it came in, a volume Q Δt a step; complete mixing at junctions; vessels as stirred tanks
 * in a row; time in a pipe changes water as `WaterChange` says. Days follow one another until the means of every place hold.
 *
 * What runs to draws only (see `twigsOf`) follows each draw. The mains, which are rings, what lies between sources, vessels and
 * returns, and then trunks that hardly ever rest, may take longer steps with the mean of what is drawn in them; the branches then take
 * what the mains send throughout, so that mass and heat are kept. `benchmarks/network-age.ts` tells what that costs.
 *
 * Special cases: water that never moves has the air's temperature, no residual and the greatest age that is told. No dispersion: slow
 * draws in truth bring a mixture for about five volumes of the pipe. Without repeating by the limit of days, `repeats` is false.
 *
 * @param network nodes, pipes and draws; every draw repeats each day
 * @param options minutes a step, a divisor of 1440 (default 1), and a step of the mains, a multiple of it that divides 1440 (default the
 *   same, about 5 in networks of more than 1,000 pipes); limit of days (default 60); spans of the curves; progress
 * @throws RangeError when a step does not divide the day or the step of the mains, or flows cannot be found
 * @source plug-flow-heat-balance
 * @source epanet-2-2
 * @example
 * simulateDay({ nodes: [], pipes: [], outlets: [], valves: [], chemistry: { disinfectant: 'none', bulkPerHour: 0, wallMPerHour: 0, referenceC: 20, standingSherwood: 2 } }).repeats // => true
 */
export function simulateDay(network: Network, options: SimulationOptions = {}): SimulatedDay {
  const { stepMinutes = 1, mostDays = MOST_DAYS, slots = 0, progress } = options
  refuse('the step', { minutes: stepMinutes })
  const { mainMinutes = usualMainMinutes(network, stepMinutes) } = options
  refuse('a step of the mains', { minutes: mainMinutes, of: stepMinutes })
  if (slots !== 0) refuse('a span of the curves', { minutes: MINUTES_PER_DAY / slots })
  const renumbered = inRunningOrder(network)
  const run = new BuildingRun(renumbered.network, { stepMinutes, mainMinutes, slots })
  let before: Float64Array | undefined
  for (let day = 0; ; day++) {
    const totals = run.runDay(day, progress && ((fraction) => progress(progressOf(day + fraction))))
    const means = meansOf(run)
    const repeats = before !== undefined && isSame(before, means, largestResidual(network))
    before = means
    const settled = repeats || hasNothing(network)
    if (settled || day + 1 >= mostDays)
      return asNumberedBefore(
        describeDay(run, { day, repeats: settled, balance: balanceOf(totals, network) }),
        renumbered,
      )
    if (REFILLS.has(day)) run.refillSlow(day)
  }
}

/** The number of days is not known beforehand; each is taken as a fifth of what is left. */
const progressOf = (days: number): number => 1 - 0.8 ** days

const hasNothing = ({ pipes }: Network): boolean => pipes.length === 0

function refuse(what: string, { minutes, of = minutes }: { minutes: number; of?: number }): void {
  const divides = minutes > 0 && Number.isInteger(minutes * 60) && Number.isInteger(MINUTES_PER_DAY / minutes)
  if (!divides) throw new RangeError(`Cannot simulate a day because ${what} must divide it: got ${minutes} minutes`)
  if (Number.isInteger(minutes / of)) return
  throw new RangeError(
    `Cannot simulate a day because ${what} must be a multiple of ${of} minutes, the step: got ${minutes} minutes`,
  )
}

function largestResidual({ nodes }: Network): number {
  return nodes.reduce((most, node) => (node.kind === 'source' ? Math.max(most, node.residualMgPerL) : most), 0)
}

/** Of every place that is not still: the pipes' ends, the layers of vessels, mixed water. */
function meansOf({ record, nodeRecord, still }: BuildingRun): Float64Array {
  const { places: pipes } = record
  const means = new Float64Array((pipes + nodeRecord.places) * WATER_FIELDS)
  const write = (row: number, { of, place }: { of: PlaceRecord; place: number }): void => {
    for (let field = 0; field < WATER_FIELDS; field++) means[row * WATER_FIELDS + field] = of.meanOf(place, field)
  }
  for (let pipe = 0; pipe < pipes; pipe++) if (still[pipe] === 0) write(pipe, { of: record, place: pipe })
  for (let place = 0; place < nodeRecord.places; place++) write(pipes + place, { of: nodeRecord, place })
  return means
}

function isSame(before: Float64Array, after: Float64Array, residualMgPerL: number): boolean {
  for (let row = 0; row < after.length; row += WATER_FIELDS) {
    const apart = (field: number): number => Math.abs(after[row + field]! - before[row + field]!)
    if (apart(WATER.age) > Math.max(REPEATS.minutes, REPEATS.age * after[row + WATER.age]!)) return false
    if (apart(WATER.temperature) > REPEATS.kelvin || apart(WATER.growth) > REPEATS.growth) return false
    if (apart(WATER.residual) > REPEATS.residual * residualMgPerL) return false
  }
  return true
}

function balanceOf(day: DayTotals, network: Network): SimulatedDay['balance'] {
  const volumes = day.inL === 0 ? 1 : day.inL
  const energy = Math.max(day.inLK + day.heatedLK, network.pipes.length === 0 ? 1 : Number.MIN_VALUE)
  const excess = day.inLK + day.heatedLK - day.outLK - day.lostLK - day.storedLK
  return {
    massErrorFraction: Math.abs(day.inL - day.outL) / volumes,
    energyErrorFraction: day.inLK + day.heatedLK === 0 ? 0 : Math.abs(excess) / energy,
  }
}
