import type { DaySeries } from '@rillmark/science/network/day-result.ts'
import type { NetworkPipe } from '@rillmark/science/network/network.ts'
import { waterDensityKgPerM3, waterHeatCapacityJPerKgK } from '@rillmark/science/water/liquid-water.ts'
import type { SimulationRun } from './simulation-run.ts'

/** A run with what its nodes always receive. */
export interface RunningBuilding extends SimulationRun {
  series: DaySeries
  /** L/min that always come to each node, whoever draws. */
  alwaysIn: Float64Array
}

/** A tap that is opened, with the pipes its water comes through, nearest first. */
export interface OpenedTap {
  run: RunningBuilding
  quantity: 'temperatureC' | 'residualMgPerL'
  flowLPerMin: number
  way: readonly Stretch[]
}

/** A pipe on the way to a tap, and the node it brings water to. */
interface Stretch {
  pipe: number
  near: number
  far: number
  /** L/min towards the tap that are there whoever draws; below 0 away from it. */
  towards: number
  /** L/min of other water that always come to the near node. */
  other: number
  /** What the water of the pipe, and with heat its wall, counts for, L. */
  heldL: number
  coolingPerMinute: number
  ambientC: number
}

/** Flow that never falls below this is there always. */
const MOVING_L_PER_MIN = 0.01
const SECONDS_A_MINUTE = 60
/** Litres in a metre of a square millimetre, and cubic metres in a litre. */
const L_PER_M_MM2 = 1e-3
const M3_PER_L = 1e-3

/** Flow along from → to that is there whoever draws; 0 where it comes and goes. */
function alwaysAlong({ day }: SimulationRun, pipe: number): number {
  const { min = 0, max = 0 } = day.pipes[pipe]?.flowLPerMin ?? {}
  if (min > MOVING_L_PER_MIN) return min
  return max < -MOVING_L_PER_MIN ? max : 0
}

/** Prepares a run for questions about taps; it must have kept curves of the day. */
export function runningBuilding(run: SimulationRun): RunningBuilding {
  const { series } = run.day
  if (series === undefined) throw new RangeError('Cannot predict readings because the run kept no curves: got none')
  const into = new Float64Array(run.network.nodes.length)
  for (const [at, { from, to }] of run.network.pipes.entries()) {
    const flow = alwaysAlong(run, at)
    const end = flow > 0 ? to : from
    into[end] = (into[end] ?? 0) + Math.abs(flow)
  }
  return { ...run, series, alwaysIn: into }
}

/**
 * Opens a tap in a run.
 *
 * @param given the outlet's node and the indexes of the pipes its water comes through, nearest first
 */
export function openTap(
  run: RunningBuilding,
  given: { quantity: OpenedTap['quantity']; flowLPerMin: number; outletNode: number; pipes: readonly number[] },
): OpenedTap {
  const { quantity, flowLPerMin } = given
  let near = given.outletNode
  const way = given.pipes.flatMap((at): Stretch[] => {
    const pipe = run.network.pipes[at]
    if (pipe === undefined) return []
    const comesFrom = pipe.to === near ? pipe.from : pipe.to
    const towards = alwaysAlong(run, at) * (pipe.to === near ? 1 : -1)
    const other = Math.max(0, (run.alwaysIn[near] ?? 0) - Math.max(0, towards))
    const stretch = { pipe: at, near, far: comesFrom, towards, other, ...heldBy(pipe, quantity) }
    near = comesFrom
    return [stretch]
  })
  return { run, quantity, flowLPerMin, way }
}

function heldBy(
  { lengthM, boreMm, wallHeatJPerMK, lossWPerMK, lossAtK, ambientC }: NetworkPipe,
  quantity: OpenedTap['quantity'],
): Pick<Stretch, 'heldL' | 'coolingPerMinute' | 'ambientC'> {
  const litresPerM = (Math.PI / 4) * boreMm ** 2 * L_PER_M_MM2
  const waterC = Math.min(Math.max(ambientC + lossAtK, 1), 99)
  const waterJPerMK = litresPerM * waterDensityKgPerM3(waterC) * M3_PER_L * waterHeatCapacityJPerKgK(waterC)
  const held = 1 + wallHeatJPerMK / waterJPerMK
  return {
    heldL: litresPerM * lengthM * (quantity === 'temperatureC' ? held : 1),
    coolingPerMinute: quantity === 'temperatureC' ? (lossWPerMK * SECONDS_A_MINUTE) / (waterJPerMK * held) : 0,
    ambientC,
  }
}

/**
 * The water that leaves an opened tap after so many seconds, with the pipes as they were on average in one span of the day.
 *
 * What stood before the tap comes first, then what lies further up. A pipe is passed at the tap's flow and the flow that always runs there;
 * its wall takes its share of the heat, so that warmth comes later than water, by wall and water over water. Where other water always comes
 * to a junction on the way, the tap's water mixes with it; where that alone is more than the tap takes, nothing comes from further up. On
 * its way water loses heat as standing in the pipe it passes.
 */
export function waterAtTap(tap: OpenedTap, { seconds, slot }: { seconds: number; slot: number }): number {
  return leaving(tap, { slot, step: 0, minutes: seconds / SECONDS_A_MINUTE, flowLPerMin: tap.flowLPerMin })
}

interface Step {
  slot: number
  /** 0 at the outlet. */
  step: number
  minutes: number
  /** Drawn through here on top of what always runs. */
  flowLPerMin: number
}

/** Water that leaves the node at this step of the way, towards the tap. */
function leaving(tap: OpenedTap, at: Step): number {
  const stretch = tap.way[at.step]
  if (stretch === undefined) return atNode(tap, { node: tap.way.at(-1)?.far ?? 0, slot: at.slot })
  const { near, towards, other } = stretch
  const here = atNode(tap, { node: near, slot: at.slot })
  const comes = Math.max(0, towards)
  const through = towards + at.flowLPerMin
  if (through <= 0) return here
  const arrives = arriving(tap, { ...at, flowLPerMin: Math.min(at.flowLPerMin, through) })
  if (other === 0) return arrives
  const otherTimesFlow = (other + comes) * here - comes * atEnd(tap, { pipe: stretch.pipe, slot: at.slot })
  return (otherTimesFlow + through * arrives) / (other + through)
}

/** Water that arrives through the pipe of this step. */
function arriving(tap: OpenedTap, at: Step): number {
  const stretch = tap.way[at.step] as Stretch
  const { towards, heldL, ambientC, coolingPerMinute } = stretch
  const passMinutes = heldL / (Math.max(0, towards) + at.flowLPerMin)
  const [near, far] = endsOf(tap, { stretch, slot: at.slot })
  const from =
    at.minutes < passMinutes
      ? near + (far - near) * (at.minutes / passMinutes)
      : leaving(tap, { ...at, step: at.step + 1, minutes: at.minutes - passMinutes })
  if (coolingPerMinute === 0) return from
  return ambientC + (from - ambientC) * Math.exp(-Math.min(at.minutes, passMinutes) * coolingPerMinute)
}

/** Near the tap and far from it: standing water is alike all along. */
function endsOf(tap: OpenedTap, { stretch, slot }: { stretch: Stretch; slot: number }): [number, number] {
  const { pipe, near, far, towards } = stretch
  const end = atEnd(tap, { pipe, slot })
  if (towards > 0) return [end, atNode(tap, { node: far, slot })]
  return towards < 0 ? [atNode(tap, { node: near, slot }), end] : [end, end]
}

function atNode({ run, quantity }: OpenedTap, { node, slot }: { node: number; slot: number }): number {
  return run.series.nodes[quantity][node * run.series.slots + slot] ?? Number.NaN
}

function atEnd({ run, quantity }: OpenedTap, { pipe, slot }: { pipe: number; slot: number }): number {
  return run.series.pipes[quantity][pipe * run.series.slots + slot] ?? Number.NaN
}
