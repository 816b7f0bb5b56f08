import { changedSystem } from './changed-system.ts'
import { buildGraph, otherEnd, reachOf } from './graph.ts'
import type { SystemChange } from './kinds.ts'
import type { Circuit, Component, Pipe, WaterSystem } from './water-system.ts'
import { isHeater, isOutlet } from './water-system.ts'

/** What taking a part out means. */
export interface Removal {
  readonly changes: readonly SystemChange[]
  /** the pipes that go with it */
  readonly pipes: readonly Pipe[]
  /** what loses its water on a circuit it has now */
  readonly cutOff: readonly { readonly component: Component; readonly circuits: readonly Circuit[] }[]
}

const FED: readonly Circuit[] = ['cold', 'hot', 'tempered']

/**
 * What goes when a component is taken out, and which outlets, heaters and valves no water would reach any more.
 *
 * @param options.join one pipe takes the place of the two that met in it (see `canJoin`)
 */
export function removalOf(system: WaterSystem, options: { id: string; join?: boolean }): Removal {
  const { id, join = false } = options
  const pipes = system.pipes.filter((pipe) => pipe.from === id || pipe.to === id)
  const joined = join ? joinedPipe(pipes, id) : undefined
  const changes: SystemChange[] = [
    ...pipes.map((pipe) => ({ change: 'remove-pipe' as const, id: pipe.id })),
    { change: 'remove-component', id },
    ...(joined === undefined ? [] : [{ change: 'put-pipe' as const, pipe: joined }]),
  ]
  return { changes, pipes, cutOff: cutOffBy(system, changes) }
}

/** What loses its water by these changes. */
export function cutOffBy(system: WaterSystem, changes: readonly SystemChange[]): Removal['cutOff'] {
  const before = buildGraph(system)
  const after = buildGraph(changedSystem(system, changes))
  const reaches = FED.map((circuit) => ({
    circuit,
    was: reachOf(before, { circuit }),
    is: reachOf(after, { circuit }),
  }))
  const needing = [...after.components.values()].filter(
    (one) => isOutlet(one) || isHeater(one) || one.kind === 'mixing-valve',
  )
  return needing
    .map((component) => ({
      component,
      circuits: reaches
        .filter(({ was, is }) => was.has(component.id) && !is.has(component.id))
        .map(({ circuit }) => circuit),
    }))
    .filter(({ circuits }) => circuits.length > 0)
}

/** True where a component merely lies between two pipes of one circuit, so that one pipe can take its place. */
export const canJoin = (system: WaterSystem, id: string): boolean =>
  joinedPipe(
    system.pipes.filter((pipe) => pipe.from === id || pipe.to === id),
    id,
  ) !== undefined

/** One pipe as long as both; it keeps the facts of the first. */
function joinedPipe(pipes: readonly Pipe[], id: string): Pipe | undefined {
  const [first, second, ...more] = pipes.toSorted((a, b) => Number(a.from === id) - Number(b.from === id))
  if (first === undefined || second === undefined || more.length > 0) return undefined
  const [from, to] = [otherEnd(first, id), otherEnd(second, id)]
  if (first.circuit !== second.circuit || from === to || from === id || to === id) return undefined
  return { ...first, from, to, lengthM: first.lengthM + second.lengthM }
}
