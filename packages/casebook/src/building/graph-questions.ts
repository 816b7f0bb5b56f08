import type { Reach, SystemGraph } from './graph.ts'
import { hasCircuit, otherEnd } from './graph.ts'
import type { Circuit, Component, Pipe } from './water-system.ts'
import { isOutlet } from './water-system.ts'

const RETURN: Circuit = 'hot-return'

/** The nearest and farthest outlet of one riser on one circuit, by metres of pipe from the source. */
export interface RiserEnds {
  riser: string
  circuit: Circuit
  nearest: { outlet: string; lengthM: number }
  farthest: { outlet: string; lengthM: number }
}

/**
 * Nearest and farthest outlet of every riser on every circuit that feeds it, in order of riser name.
 *
 * @param reaches the reach of the circuits to ask about, from `reachOf`
 */
export function riserEnds(graph: SystemGraph, reaches: ReadonlyMap<Circuit, Reach>): RiserEnds[] {
  const ends = new Map<string, RiserEnds>()
  const outlets = [...graph.components.values()].filter((one) => isOutlet(one) && one.riser !== undefined)
  for (const { id, riser = '' } of outlets.sort(byId)) {
    for (const [circuit, reach] of reaches) {
      const lengthM = reach.get(id)?.lengthM
      if (lengthM === undefined) continue
      const place = { outlet: id, lengthM }
      const key = JSON.stringify([riser, circuit])
      const known = ends.get(key) ?? { riser, circuit, nearest: place, farthest: place }
      if (lengthM < known.nearest.lengthM) known.nearest = place
      if (lengthM > known.farthest.lengthM) known.farthest = place
      ends.set(key, known)
    }
  }
  return [...ends.values()].sort((a, b) => compare(a.riser, b.riser) || compare(a.circuit, b.circuit))
}

/** A stretch of pipe no ordinary use draws through. */
export interface DeadLeg {
  /** Pipes of the stretch, from the flowing part outwards. */
  pipes: string[]
  /** Where it leaves the flowing part. */
  from: string
  circuit: Circuit
  lengthM: number
  /** Unused outlets at its ends; empty for a capped stub or a drain. */
  outlets: string[]
}

/**
 * Stretches that hang off the flowing system and end only in unused outlets, drains or nothing, longest first.
 * Pipes are pruned from their ends inwards until what is left is drawn through or goes round.
 */
export function deadLegs(graph: SystemGraph): DeadLeg[] {
  const open = new Map<string, number>()
  for (const id of graph.components.keys()) open.set(id, graph.pipesAt(id).length)
  const pruned = new Set<string>()
  const ends = [...graph.components.values()].filter((one) => endsNothing(graph, one)).map((one) => one.id)
  for (let id = ends.pop(); id !== undefined; id = ends.pop()) {
    for (const pipe of graph.pipesAt(id)) {
      if (pruned.has(pipe.id)) continue
      pruned.add(pipe.id)
      const next = otherEnd(pipe, id)
      const left = (open.get(next) ?? 0) - 1
      open.set(next, left)
      const component = graph.components.get(next)
      if (left === 1 && component !== undefined && letsPass(component)) ends.push(next)
    }
  }
  return gather(graph, pruned)
}

const isUnused = (component: Component): boolean => isOutlet(component) && component.use?.pattern === 'unused'
const letsPass = (component: Component): boolean => component.kind === 'junction' || component.kind === 'pump'

function endsNothing(graph: SystemGraph, component: Component): boolean {
  if (isUnused(component) || component.kind === 'drain-valve') return true
  return letsPass(component) && graph.pipesAt(component.id).length === 1
}

function gather(graph: SystemGraph, pruned: ReadonlySet<string>): DeadLeg[] {
  const legs: DeadLeg[] = []
  const seen = new Set<string>()
  for (const root of [...graph.components.values()].sort(byId)) {
    const flowing = graph.pipesAt(root.id).some((pipe) => !pruned.has(pipe.id)) || !letsPass(root)
    if (!flowing || isUnused(root) || root.kind === 'drain-valve') continue
    for (const pipe of graph.pipesAt(root.id)) {
      if (pruned.has(pipe.id) && !seen.has(pipe.id)) legs.push(legFrom({ graph, pruned, seen }, { root, pipe }))
    }
  }
  return legs.sort((a, b) => b.lengthM - a.lengthM || compare(a.from, b.from))
}

interface Walk {
  graph: SystemGraph
  pruned: ReadonlySet<string>
  seen: Set<string>
}

function legFrom({ graph, pruned, seen }: Walk, start: { root: Component; pipe: Pipe }): DeadLeg {
  const { root, pipe: first } = start
  const leg: DeadLeg = { pipes: [], from: root.id, circuit: first.circuit, lengthM: 0, outlets: [] }
  const queue = [{ pipe: first, from: root.id }]
  for (let next = queue.shift(); next !== undefined; next = queue.shift()) {
    if (seen.has(next.pipe.id)) continue
    seen.add(next.pipe.id)
    leg.pipes.push(next.pipe.id)
    leg.lengthM += next.pipe.lengthM
    const end = graph.components.get(otherEnd(next.pipe, next.from))
    if (end === undefined) continue
    if (isUnused(end)) leg.outlets.push(end.id)
    if (!letsPass(end)) continue
    for (const pipe of graph.pipesAt(end.id)) if (pruned.has(pipe.id)) queue.push({ pipe, from: end.id })
  }
  return leg
}

/** One return of hot water: the pipes from where it leaves the flow to where it joins other returns or the heater. */
export interface ReturnLeg {
  riser: string | undefined
  /** The component of the hot or tempered flow the return leaves. */
  from: string
  /** Pipes from the flow onwards. */
  pipes: string[]
  /** Where it joins other returns, a pump, a mixing valve or a heater. */
  to: string
  lengthM: number
  recirculationLPerMin: number | undefined
}

/** Every return from its start in the flow, in order of riser then start. */
export function returnLegs(graph: SystemGraph): ReturnLeg[] {
  const starts = [...graph.components.values()].filter(
    (one) =>
      (one.kind === 'junction' || isOutlet(one)) &&
      hasCircuit(graph, { id: one.id, circuit: RETURN }) &&
      graph.pipesAt(one.id).some((pipe) => pipe.circuit === 'hot' || pipe.circuit === 'tempered'),
  )
  const legs = starts.sort(byId).flatMap((start) =>
    graph
      .pipesAt(start.id)
      .filter((pipe) => pipe.circuit === RETURN)
      .map((pipe) => legBack(graph, { start, pipe })),
  )
  return legs.sort((a, b) => compare(a.riser ?? '', b.riser ?? '') || compare(a.from, b.from))
}

/** The last pipes of the returns of a component's own riser, where they join others: there a return is read, before it mixes. */
export function ownReturns(legs: readonly ReturnLeg[], { id, riser }: Component): string[] {
  if (riser === undefined) return []
  return legs.flatMap((leg) => (leg.to === id && leg.riser === riser ? leg.pipes.slice(-1) : []))
}

function legBack(graph: SystemGraph, begin: { start: Component; pipe: Pipe }): ReturnLeg {
  const seen = new Set<string>()
  let at = begin.start.id
  let next: Pipe | undefined = begin.pipe
  let lengthM = 0
  let recirculationLPerMin: number | undefined
  while (next !== undefined && !seen.has(next.id)) {
    seen.add(next.id)
    lengthM += next.lengthM
    recirculationLPerMin ??= next.recirculationLPerMin
    at = otherEnd(next, at)
    const onward: Pipe[] = graph.pipesAt(at).filter((pipe) => pipe.circuit === RETURN && !seen.has(pipe.id))
    next = onward.length === 1 && graph.components.get(at)?.kind === 'junction' ? onward[0] : undefined
  }
  const { id: from, riser } = begin.start
  return { riser, from, pipes: [...seen], to: at, lengthM, recirculationLPerMin }
}

const byId = (a: { id: string }, b: { id: string }): number => compare(a.id, b.id)
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
