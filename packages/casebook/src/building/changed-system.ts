import type { SystemChange } from './kinds.ts'
import { WorkingSystem } from './state.ts'
import type { Component, KnownBy, Pipe, Provenance, Supply, WaterSystem } from './water-system.ts'

/** The system as it will be after the changes; the given one stays as it is. */
export function changedSystem(system: WaterSystem, changes: readonly SystemChange[]): WaterSystem {
  const working = new WorkingSystem()
  working.replace(system)
  for (const change of changes) working.change(change)
  return working.system() ?? system
}

/**
 * The changes that make one system of another: parts put where they are new or differ, parts removed where they are gone. Floors, plant position
 * and other facts of the head are not compared; they come with a whole description.
 */
export function changesBetween(before: WaterSystem, after: WaterSystem): SystemChange[] {
  const kept = new Set(after.components.map(({ id }) => id))
  const keptPipes = new Set(after.pipes.map(({ id }) => id))
  const old = new Map<string, Component | Pipe>(before.components.map((one) => [one.id, one]))
  const oldPipes = new Map<string, Component | Pipe>(before.pipes.map((one) => [one.id, one]))
  const differs = (was: Component | Pipe | undefined, is: Component | Pipe): boolean =>
    was !== is && JSON.stringify(was) !== JSON.stringify(is)
  return [
    ...before.pipes.filter(({ id }) => !keptPipes.has(id)).map(({ id }) => ({ change: 'remove-pipe' as const, id })),
    ...before.components
      .filter(({ id }) => !kept.has(id))
      .map(({ id }) => ({ change: 'remove-component' as const, id })),
    ...after.components
      .filter((one) => differs(old.get(one.id), one))
      .map((component) => ({ change: 'put-component' as const, component })),
    ...after.pipes
      .filter((one) => differs(oldPipes.get(one.id), one))
      .map((pipe) => ({ change: 'put-pipe' as const, pipe })),
  ]
}

/** The facts whose value is not the same in both, `use` and `disinfectant` each as one fact. */
export function changedFacts(before: Component | Pipe | Supply, after: Component | Pipe | Supply): string[] {
  const was = before as Readonly<Record<string, unknown>>
  const is = after as Readonly<Record<string, unknown>>
  return [...new Set([...Object.keys(was), ...Object.keys(is)])].filter(
    (fact) => fact !== 'provenance' && JSON.stringify(was[fact]) !== JSON.stringify(is[fact]),
  )
}

/** The same part, with these facts known that way from now on; facts it no longer states lose their word. */
export function nowKnown<T extends Component | Pipe | Supply>(
  thing: T,
  { facts, known }: { facts: readonly string[]; known: KnownBy },
): T {
  const stated = new Set(['default', ...Object.keys(thing)])
  const all = { ...thing.provenance, ...Object.fromEntries(facts.map((fact) => [fact, known])) }
  const provenance: Provenance = Object.fromEntries(Object.entries(all).filter(([fact]) => stated.has(fact)))
  return Object.keys(provenance).length === 0 ? thing : { ...thing, provenance }
}

/** The same part with every fact known one way. */
export const allKnown = <T extends Component | Pipe | Supply>(thing: T, known: KnownBy): T => ({
  ...thing,
  provenance: { default: known },
})
