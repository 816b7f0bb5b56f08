import type { Component, KnownBy, Pipe, Supply } from './water-system.ts'
import { knownByOf } from './water-system.ts'

/** From the weakest ground for a fact to the strongest. */
const STRENGTH: readonly KnownBy[] = ['guessed', 'drawn', 'told', 'seen']
const NOT_FACTS: ReadonlySet<string> = new Set(['id', 'notes', 'provenance', 'label'])

/** The facts a component, pipe or supply states. */
export const factsOf = (thing: Component | Pipe | Supply): string[] =>
  Object.entries(thing)
    .filter(([fact, value]) => value !== undefined && !NOT_FACTS.has(fact))
    .map(([fact]) => fact)

/** How the least certain of its facts is known, or undefined where one of them says nothing about it. */
export function weakestKnown(thing: Component | Pipe | Supply): KnownBy | undefined {
  const known = factsOf(thing).map((fact) => knownByOf(thing, fact))
  if (known.includes(undefined)) return undefined
  return STRENGTH.find((one) => known.includes(one))
}

/** Facts by how they are known, over any parts of a system; `undefined` counts those that do not say. */
export function countKnown(things: readonly (Component | Pipe | Supply)[]): Map<KnownBy | undefined, number> {
  const counts = new Map<KnownBy | undefined, number>()
  for (const thing of things)
    for (const fact of factsOf(thing)) {
      const known = knownByOf(thing, fact)
      counts.set(known, (counts.get(known) ?? 0) + 1)
    }
  return counts
}
