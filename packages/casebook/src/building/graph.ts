import type { Circuit, Component, Pipe } from './water-system.ts'
import { isHeater, isOutlet } from './water-system.ts'

/** The parts of a water system a graph is made of; a whole `WaterSystem` is one. */
export interface Parts {
  components: readonly Component[]
  pipes: readonly Pipe[]
}

/** A water system indexed for walking. Pipes that end nowhere are left out: `checkSystem` reports them. */
export interface SystemGraph {
  components: ReadonlyMap<string, Component>
  pipes: ReadonlyMap<string, Pipe>
  pipesAt: (componentId: string) => readonly Pipe[]
}

/** How the water of a circuit comes to a component. */
export interface Arrival {
  lengthM: number
  /** The pipe it comes through; undefined at the source itself. */
  pipe: string | undefined
  /** The component before it. */
  from: string | undefined
}

/** Everything a circuit reaches, with the shortest way to it. */
export type Reach = ReadonlyMap<string, Arrival>

const NO_PIPES: readonly Pipe[] = []

export function buildGraph(parts: Parts): SystemGraph {
  const components = new Map(parts.components.map((component) => [component.id, component]))
  const pipes = new Map<string, Pipe>()
  const at = new Map<string, Pipe[]>()
  const hang = (id: string, pipe: Pipe): void => {
    const list = at.get(id)
    if (list === undefined) at.set(id, [pipe])
    else list.push(pipe)
  }
  for (const pipe of parts.pipes) {
    if (!components.has(pipe.from) || !components.has(pipe.to)) continue
    pipes.set(pipe.id, pipe)
    hang(pipe.from, pipe)
    if (pipe.to !== pipe.from) hang(pipe.to, pipe)
  }
  return { components, pipes, pipesAt: (id) => at.get(id) ?? NO_PIPES }
}

/** The component at the other end of a pipe. */
export const otherEnd = (pipe: Pipe, id: string): string => (pipe.from === id ? pipe.to : pipe.from)

/** True where a pipe of this circuit ends at the component. */
export const hasCircuit = (graph: SystemGraph, at: { id: string; circuit: Circuit }): boolean =>
  graph.pipesAt(at.id).some((pipe) => pipe.circuit === at.circuit)

/**
 * Every component the circuit reaches and the shortest way there in metres of pipe. Cold water starts at the supply
 * entries, hot at the heaters, tempered at the mixing valves (counted from the heater), returns at the heaters.
 * Pipes are walked both ways: `from` and `to` only orient the drawing. Water does not pass through an outlet.
 *
 * @param options.sources where to start instead, with the metres already run
 */
export function reachOf(
  graph: SystemGraph,
  options: { circuit: Circuit; sources?: ReadonlyMap<string, number> },
): Reach {
  const sources = options.sources ?? sourcesOf(graph, options.circuit)
  const reach = new Map<string, Arrival>()
  const queue = new NearestFirst()
  for (const [id, lengthM] of sources) queue.push({ id, lengthM, pipe: undefined, from: undefined })
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    if (reach.has(next.id)) continue
    const { id, ...arrival } = next
    reach.set(id, arrival)
    const component = graph.components.get(id)
    if (component !== undefined && isOutlet(component)) continue
    for (const pipe of graph.pipesAt(id)) {
      const to = otherEnd(pipe, id)
      if (pipe.circuit === options.circuit && !reach.has(to))
        queue.push({ id: to, lengthM: arrival.lengthM + pipe.lengthM, pipe: pipe.id, from: id })
    }
  }
  return reach
}

function sourcesOf(graph: SystemGraph, circuit: Circuit): Map<string, number> {
  const all = [...graph.components.values()]
  const at = (fits: (component: Component) => boolean): Map<string, number> =>
    new Map(all.filter(fits).map((component) => [component.id, 0]))
  if (circuit === 'cold') return at((component) => component.kind === 'supply-entry')
  if (circuit !== 'tempered') return at(isHeater)
  const hot = reachOf(graph, { circuit: 'hot' })
  const valves = all.filter((component) => component.kind === 'mixing-valve')
  return new Map(valves.map((valve) => [valve.id, hot.get(valve.id)?.lengthM ?? 0]))
}

interface Waiting extends Arrival {
  id: string
}

/** A binary heap by length; ties go to the smaller id so that the order of the input never matters. */
class NearestFirst {
  readonly #items: Waiting[] = []

  push(item: Waiting): void {
    const items = this.#items
    items.push(item)
    for (let at = items.length - 1; at > 0; ) {
      const parent = (at - 1) >> 1
      if (!this.#swapIfBefore(at, parent)) return
      at = parent
    }
  }

  pop(): Waiting | undefined {
    const items = this.#items
    const first = items[0]
    const last = items.pop()
    if (first === undefined || last === undefined || items.length === 0) return first
    items[0] = last
    for (let at = 0; ; ) {
      const left = 2 * at + 1
      const child = this.#isBefore(left + 1, left) ? left + 1 : left
      if (!this.#swapIfBefore(child, at)) return first
      at = child
    }
  }

  #isBefore(a: number, b: number): boolean {
    const one = this.#items[a]
    const two = this.#items[b]
    if (one === undefined || two === undefined) return false
    if (one.lengthM !== two.lengthM) return one.lengthM < two.lengthM
    return one.id === two.id ? (one.pipe ?? '') < (two.pipe ?? '') : one.id < two.id
  }

  #swapIfBefore(a: number, b: number): boolean {
    const one = this.#items[a]
    const two = this.#items[b]
    if (one === undefined || two === undefined || !this.#isBefore(a, b)) return false
    this.#items[a] = two
    this.#items[b] = one
    return true
  }
}
