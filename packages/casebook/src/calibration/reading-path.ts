import { buildGraph, hasCircuit, reachOf, type Reach } from '../building/graph.ts'
import { ownReturns, type ReturnLeg, returnLegs } from '../building/graph-questions.ts'
import { type Circuit, isHeater, isOutlet, type WaterSystem } from '../building/water-system.ts'
import type { FieldReading } from './field-reading.ts'

/** What a reading is of: water that comes out at the end of pipes, nearest first, or water of a place itself. */
export type ReadingPlace =
  | { kind: 'through pipes'; component: string; pipes: readonly string[] }
  | { kind: 'of a part'; component: string }
  | { kind: 'of returns'; pipes: readonly string[] }

/** Finds for readings of one description where their water comes from; each circuit's ways are found once. */
export class ReadingPaths {
  readonly #graph
  readonly #legs: readonly ReturnLeg[]
  readonly #reaches = new Map<Circuit, Reach>()

  constructor(system: WaterSystem) {
    this.#graph = buildGraph(system)
    this.#legs = returnLegs(this.#graph)
  }

  /** Undefined where the place has no such water. */
  placeOf({ component: id, circuit }: Pick<FieldReading, 'component' | 'circuit'>): ReadingPlace | undefined {
    const component = this.#graph.components.get(id)
    if (component === undefined) return undefined
    if (circuit === 'hot-return' && (isHeater(component) || component.kind === 'mixing-valve')) {
      const pipes = this.#graph.pipesAt(id).filter((pipe) => pipe.circuit === circuit)
      return pipes.length === 0 ? undefined : { kind: 'of returns', pipes: pipes.map((pipe) => pipe.id) }
    }
    const own = circuit === 'hot-return' ? ownReturns(this.#legs, component) : []
    if (own.length > 0) return { kind: 'of returns', pipes: own }
    if (!isOutlet(component)) return this.#plant(id, circuit)
    const way = this.#wayTo(id, circuit)
    return way === undefined ? undefined : { kind: 'through pipes', component: id, pipes: way }
  }

  #plant(id: string, circuit: Circuit): ReadingPlace | undefined {
    const there = this.#graph.components.get(id)
    const passes = there?.kind === 'supply-entry' || hasCircuit(this.#graph, { id, circuit })
    return passes ? { kind: 'of a part', component: id } : undefined
  }

  #wayTo(id: string, circuit: Circuit): string[] | undefined {
    const reach = this.#reaches.get(circuit) ?? reachOf(this.#graph, { circuit })
    this.#reaches.set(circuit, reach)
    const pipes: string[] = []
    let at = id
    for (let step = reach.get(at); step?.pipe !== undefined; step = reach.get(at)) {
      pipes.push(step.pipe)
      at = step.from ?? at
    }
    return pipes.length === 0 ? undefined : pipes
  }
}
