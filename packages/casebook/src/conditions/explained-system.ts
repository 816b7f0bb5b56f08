import type { Network, NetworkPipe } from '@rillmark/science/network/network.ts'
import { pipeVolumeL } from '@rillmark/science/network/pipe-rates.ts'
import { buildGraph, type SystemGraph } from '../building/graph.ts'
import { type ReturnLeg, returnLegs } from '../building/graph-questions.ts'
import { type Circuit, isOutlet, type Pipe, type WaterSystem } from '../building/water-system.ts'
import { compileNetwork } from './compile-network.ts'
import type { SystemMap } from './compiled.ts'
import type { Conditions, PipeConditions, PlaceConditions } from './conditions.ts'
import type { ConditionsOverrides } from './overrides.ts'
import { alwaysMoves, type WayPiece } from './water-way.ts'

/** A building with its simulated day, ready to be asked about place after place. */
export interface ExplainedSystem {
  readonly system: WaterSystem
  readonly conditions: Conditions
  readonly graph: SystemGraph
  readonly returns: readonly ReturnLeg[]
  readonly network: Network
  readonly map: SystemMap
}

export interface ExplainedFrom {
  readonly system: WaterSystem
  readonly conditions: Conditions
  /** as they were simulated with */
  readonly overrides?: ConditionsOverrides | undefined
}

const known = new WeakMap<Conditions, ExplainedSystem>()

/**
 * What every explanation of one simulated day is made from, worked out once.
 * @throws RangeError when the system can't be simulated: then there are no conditions to explain
 */
export function explainedSystem({ system, conditions, overrides }: ExplainedFrom): ExplainedSystem {
  const found = known.get(conditions)
  if (found !== undefined && found.system === system) return found
  const compiled = compileNetwork(system, { seed: conditions.seed, overrides })
  if (compiled.kind === 'cannot-say')
    throw new RangeError(`Cannot explain conditions because the system gives none: got ${compiled.reasons[0]?.why}`)
  const graph = buildGraph(system)
  const { network, map } = compiled
  const made = { system, conditions, graph, returns: returnLegs(graph), network, map }
  known.set(conditions, made)
  return made
}

/** A pipe of a way with what it did to its water. */
export interface TravelledPiece extends WayPiece {
  readonly day: PipeConditions
  readonly build: NetworkPipe
  readonly volumeL: number
  readonly alwaysMoves: boolean
  /** Water before and behind it, means over the day. */
  readonly before: PlaceConditions | undefined
  readonly after: PlaceConditions
}

/** The pieces of a way that were simulated. */
export function travelled(explained: ExplainedSystem, pieces: readonly WayPiece[]): TravelledPiece[] {
  const { conditions, network, map } = explained
  return pieces.flatMap((piece, at) => {
    const day = conditions.pipes[piece.pipe.id]
    const build = network.pipes[map.pipes.get(piece.pipe.id)?.pipe ?? -1]
    if (day === undefined || build === undefined) return []
    const earlier = pieces[at - 1]
    const before =
      waterAt(explained, { id: piece.from, circuit: piece.pipe.circuit }) ??
      (earlier === undefined ? undefined : conditions.pipes[earlier.pipe.id]?.end)
    return [
      { ...piece, day, build, volumeL: pipeVolumeL(build), alwaysMoves: alwaysMoves(day), before, after: day.end },
    ]
  })
}

/** The water of a component: of an outlet what arrives on the circuit, else its own. */
export function waterAt(
  { conditions, graph }: Pick<ExplainedSystem, 'conditions' | 'graph'>,
  { id, circuit }: { id: string; circuit: Circuit },
): PlaceConditions | undefined {
  const component = graph.components.get(id)
  const found = conditions.components[id]
  if (component === undefined || found === undefined) return undefined
  if (!isOutlet(component)) return found
  return circuit === 'hot-return' ? undefined : found.circuits?.[circuit]
}

/** The circuits that end at a component, in the order they are told. */
export function circuitsAt(graph: SystemGraph, id: string): Circuit[] {
  const here = new Set(graph.pipesAt(id).map((pipe: Pipe) => pipe.circuit))
  return (['hot', 'tempered', 'cold', 'hot-return'] as const).filter((circuit) => here.has(circuit))
}
