import { buildGraph, otherEnd, type Reach, reachOf, type SystemGraph } from '../building/graph.ts'
import { type Circuit, type Component, isOutlet } from '../building/water-system.ts'
import type { Reason } from './plan-file.ts'
import type { PlanInput } from './plan-input.ts'
import { compareComponents } from './positions.ts'

/** A wish for a point, with one reason. */
export interface Wish {
  readonly component: Component
  readonly reason: Reason
  /** how far below the others of its reason it stands; wishes of one step are dropped together */
  readonly step?: number
}

/** The system indexed once, and what is asked of it. */
export interface PlanContext {
  readonly input: PlanInput
  readonly graph: SystemGraph
  readonly reaches: ReadonlyMap<Circuit, Reach>
  /** every outlet and device, by floor, riser, room */
  readonly outlets: readonly Component[]
  readonly notes: string[]
}

export function planContext(input: PlanInput): PlanContext {
  const graph = buildGraph(input.system)
  const reaches = new Map(
    (['hot', 'tempered', 'cold'] as const).map((circuit) => [circuit, reachOf(graph, { circuit })]),
  )
  const outlets = [...graph.components.values()].filter((one) => isOutlet(one)).sort(compareComponents)
  return { input, graph, reaches, outlets, notes: [] }
}

/** The warm circuit that feeds an outlet, if any. */
export function warmCircuit({ reaches }: PlanContext, component: Component): 'hot' | 'tempered' | undefined {
  if (reaches.get('tempered')?.has(component.id) === true) return 'tempered'
  return reaches.get('hot')?.has(component.id) === true ? 'hot' : undefined
}

/** Metres from the source, on the warm circuit where there is one. */
export function metresTo(context: PlanContext, component: Component): number {
  const circuit = warmCircuit(context, component) ?? 'cold'
  return context.reaches.get(circuit)?.get(component.id)?.lengthM ?? 0
}

/** The component itself where it is an outlet, else the outlet with the fewest pipes between; undefined where none is joined. */
export function outletNear({ graph }: PlanContext, id: string): Component | undefined {
  const seen = new Set([id])
  let ring = [id]
  while (ring.length > 0) {
    const outlets = ring.flatMap((at) => graph.components.get(at) ?? []).filter((one) => isOutlet(one))
    const nearest = outlets.sort(compareComponents)[0]
    if (nearest !== undefined) return nearest
    ring = ring
      .flatMap((at) => graph.pipesAt(at).map((pipe) => otherEnd(pipe, at)))
      .filter((to) => {
        const fresh = !seen.has(to)
        seen.add(to)
        return fresh
      })
  }
  return undefined
}

export const because = (obligation: Reason['obligation'], words: { text: string; evidence: string[] }): Reason => ({
  obligation,
  text: words.text.slice(0, 400),
  evidence: words.evidence,
})
