import { otherEnd, reachOf, type Reach, type SystemGraph } from '../building/graph.ts'
import { type Circuit, type Component, isHeater, isOutlet, type Pipe } from '../building/water-system.ts'
import type { Conditions, PipeConditions } from './conditions.ts'

/** One pipe of the way of water, from where it comes to where it goes. */
export interface WayPiece {
  readonly pipe: Pipe
  readonly from: string
  readonly to: string
}

/** The way of one water to a place, from its source on. */
export interface WaterWay {
  readonly source: string
  readonly pieces: readonly WayPiece[]
}

/** Flows below this are none: rounding of the hydraulics. L/min */
export const NO_FLOW_L_PER_MIN = 1e-6

export interface WayAsked {
  readonly graph: SystemGraph
  readonly conditions: Pick<Conditions, 'pipes'>
  /** the component it ends at */
  readonly id: string
  readonly circuit: Circuit
}

/**
 * The way the water of a circuit came to a component, against the flow of the day to the heater, tank, valve or entry it left. Where
 * several pipes bring water the one that brings most is followed; where none moves, the shortest way of the circuit.
 */
export function waterWay(asked: WayAsked): WaterWay {
  const { graph } = asked
  const pieces: WayPiece[] = []
  const seen = new Set<string>()
  let reach: Reach | undefined
  let [at, circuit] = [asked.id, asked.circuit]
  for (;;) {
    const here = graph.components.get(at)
    if (here === undefined || (pieces.length > 0 && isSource(here))) break
    const open = graph.pipesAt(at).filter(({ id, circuit: carries }) => !seen.has(id) && leadsHere(carries, circuit))
    const bringing = mostInto(open, { at, conditions: asked.conditions })
    reach ??= bringing === undefined ? reachOf(graph, { circuit: asked.circuit }) : undefined
    const pipe = bringing ?? open.find(({ id }) => id === reach?.get(at)?.pipe)
    if (pipe === undefined) break
    seen.add(pipe.id)
    const from = otherEnd(pipe, at)
    pieces.unshift({ pipe, from, to: at })
    at = from
    circuit = pipe.circuit
  }
  return { source: at, pieces }
}

/** A return carries on what came as hot or tempered water. */
const leadsHere = (carries: Circuit, wanted: Circuit): boolean =>
  carries === wanted || (wanted === 'hot-return' && carries !== 'cold')

const isSource = (one: Component): boolean =>
  isHeater(one) || isOutlet(one) || ['supply-entry', 'cold-tank', 'mixing-valve'].includes(one.kind)

function mostInto(
  pipes: readonly Pipe[],
  { at, conditions }: { at: string; conditions: Pick<Conditions, 'pipes'> },
): Pipe | undefined {
  const flowInto = (pipe: Pipe): number => {
    const mean = conditions.pipes[pipe.id]?.flowLPerMin.mean ?? 0
    return pipe.to === at ? mean : -mean
  }
  const most = pipes.toSorted((a, b) => flowInto(b) - flowInto(a) || (a.id < b.id ? -1 : 1))[0]
  return most !== undefined && flowInto(most) > NO_FLOW_L_PER_MIN ? most : undefined
}

/** True where the water never rests: flow all day in one direction. */
export const alwaysMoves = ({ flowLPerMin: { min, max } }: PipeConditions): boolean =>
  min > NO_FLOW_L_PER_MIN || max < -NO_FLOW_L_PER_MIN

/** True where nothing flowed all day. */
export const neverFlows = ({ flowLPerMin: { min, max } }: PipeConditions): boolean =>
  Math.max(Math.abs(min), Math.abs(max)) <= NO_FLOW_L_PER_MIN
