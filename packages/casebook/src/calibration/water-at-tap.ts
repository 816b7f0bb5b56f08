import type { DaySeries } from '@rillmark/science/network/day-result.ts'
import type { NetworkPipe } from '@rillmark/science/network/network.ts'
import { waterDensityKgPerM3, waterHeatCapacityJPerKgK } from '@rillmark/science/water/liquid-water.ts'
import type { BuildingRun } from './building-run.ts'

/** A tap that is opened, and the pipes its water comes through, nearest first. */
export interface OpenedTap {
  quantity: 'temperatureC' | 'residualMgPerL'
  flowLPerMin: number
  outletNode: number
  pipes: readonly number[]
}

/** A run with what its nodes always receive. */
export interface RunningBuilding extends BuildingRun {
  series: DaySeries
  /** L/min that always come to each node, whoever draws. */
  alwaysIn: Float64Array
}

/** Flow that never falls below this is there always. */
const MOVING_LPERMIN = 0.01
const SECONDS_A_MINUTE = 60
/** Litres in a metre of a square millimetre, and cubic metres in a litre. */
const L_PER_M_MM2 = 1e-3
const M3_PER_L = 1e-3

/** Flow along from → to that is there whoever draws; 0 where it comes and goes. */
function alwaysAlong({ day }: BuildingRun, pipe: number): number {
  const { min = 0, max = 0 } = day.pipes[pipe]?.flowLPerMin ?? {}
  if (min > MOVING_LPERMIN) return min
  return max < -MOVING_LPERMIN ? max : 0
}

/** Prepares a run for questions about taps; it must have kept curves of the day. */
export function runningBuilding(run: BuildingRun): RunningBuilding {
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
 * The water that leaves an opened tap after so many seconds, with the pipes as they were on average in one span of the day.
 *
 * What stood before the tap comes first, then what lies further up. A pipe is passed at the tap's flow and the flow that always runs there;
 * its wall takes its share of the heat, so that warmth comes later than water, by wall and water over water. Where other water always comes
 * to a junction on the way, the tap's water mixes with it; where that alone is more than the tap takes, nothing comes from further up. On
 * its way water loses heat as standing in the pipe it passes.
 */
export function waterAtTap(
  run: RunningBuilding,
  { tap, seconds, slot }: { tap: OpenedTap; seconds: number; slot: number },
): number {
  return leaving({ run, tap, slot }, { step: 0, minutes: seconds / SECONDS_A_MINUTE, flowLPerMin: tap.flowLPerMin })
}

interface Asked {
  run: RunningBuilding
  tap: OpenedTap
  slot: number
}

interface Step {
  /** 0 at the outlet. */
  step: number
  minutes: number
  /** Drawn through here on top of what always runs. */
  flowLPerMin: number
}

/** Water that leaves the node at this step of the way, towards the tap. */
function leaving(asked: Asked, { step, minutes, flowLPerMin }: Step): number {
  const { run, tap, slot } = asked
  const pipe = tap.pipes[step]
  const node = step === 0 ? tap.outletNode : nodeBehind(asked, step - 1)
  const here = atNode(asked, node)
  if (pipe === undefined) return here
  const towards = (run.network.pipes[pipe]?.to === node ? 1 : -1) * alwaysAlong(run, pipe)
  const comes = Math.max(0, towards)
  const through = Math.max(0, towards + flowLPerMin)
  const other = Math.max(0, (run.alwaysIn[node] ?? 0) - comes)
  if (through === 0) return here
  const arrives = arriving(asked, { step, minutes, flowLPerMin: Math.min(flowLPerMin, through), towards })
  if (other === 0) return arrives
  const end = run.series.pipes[tap.quantity][pipe * run.series.slots + slot] ?? here
  const otherTimesFlow = (other + comes) * here - comes * end
  return (otherTimesFlow + through * arrives) / (other + through)
}

/** Water that arrives through the pipe after this step's node. */
function arriving(asked: Asked, given: Step & { towards: number }): number {
  const { run, tap, slot } = asked
  const { step, minutes, flowLPerMin, towards } = given
  const at = tap.pipes[step] ?? 0
  const pipe = run.network.pipes[at]
  if (pipe === undefined) return Number.NaN
  const end = run.series.pipes[tap.quantity][at * run.series.slots + slot] ?? Number.NaN
  const [near, far] = endsOf(asked, { step, towards, end })
  const { passMinutes, coolingPerMinute } = passing(pipe, { tap, lPerMin: Math.max(0, towards) + flowLPerMin })
  const inPipe = minutes < passMinutes
  const from = inPipe
    ? near + (far - near) * (minutes / passMinutes)
    : leaving(asked, { step: step + 1, minutes: minutes - passMinutes, flowLPerMin })
  if (tap.quantity === 'residualMgPerL') return from
  return pipe.ambientC + (from - pipe.ambientC) * Math.exp(-Math.min(minutes, passMinutes) * coolingPerMinute)
}

/** Near the tap and far from it: standing water is alike all along. */
function endsOf(
  asked: Asked,
  { step, towards, end }: { step: number; towards: number; end: number },
): [number, number] {
  if (towards > 0) return [end, atNode(asked, nodeBehind(asked, step))]
  return towards < 0
    ? [atNode(asked, step === 0 ? asked.tap.outletNode : nodeBehind(asked, step - 1)), end]
    : [end, end]
}

function passing(
  { lengthM, boreMm, wallHeatJPerMK, lossWPerMK, lossAtK, ambientC }: NetworkPipe,
  { tap, lPerMin }: { tap: OpenedTap; lPerMin: number },
): { passMinutes: number; coolingPerMinute: number } {
  const litresPerM = (Math.PI / 4) * boreMm ** 2 * L_PER_M_MM2
  const waterC = Math.min(Math.max(ambientC + lossAtK, 1), 99)
  const waterJPerMK = litresPerM * waterDensityKgPerM3(waterC) * M3_PER_L * waterHeatCapacityJPerKgK(waterC)
  const held = 1 + wallHeatJPerMK / waterJPerMK
  return {
    passMinutes: (litresPerM * lengthM * (tap.quantity === 'temperatureC' ? held : 1)) / lPerMin,
    coolingPerMinute: (lossWPerMK * SECONDS_A_MINUTE) / (waterJPerMK * held),
  }
}

/** The node at the end of the way's pipe that is further from the tap. */
function nodeBehind({ run, tap }: Asked, step: number): number {
  let node = tap.outletNode
  for (const at of tap.pipes.slice(0, step + 1)) {
    const pipe = run.network.pipes[at]
    node = pipe?.to === node ? pipe.from : (pipe?.to ?? node)
  }
  return node
}

function atNode({ run, tap, slot }: Asked, node: number): number {
  return run.series.nodes[tap.quantity][node * run.series.slots + slot] ?? Number.NaN
}
