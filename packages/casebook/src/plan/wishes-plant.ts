import { otherEnd } from '../building/graph.ts'
import { returnLegs, riserEnds } from '../building/graph-questions.ts'
import { componentName } from '../building/labels.ts'
import { type Circuit, type Component, isHeater } from '../building/water-system.ts'
import type { Reach } from '../building/graph.ts'
import { because, type PlanContext, type Wish, warmCircuit } from './plan-context.ts'
import { compareComponents } from './positions.ts'

/** Where the supply enters and what stores cold water; every heater; every return. */
export function plantWishes(context: PlanContext): Wish[] {
  const all = [...context.graph.components.values()].sort(compareComponents)
  const entries = all.filter(({ kind }) => kind === 'supply-entry')
  const tanks = all.filter(({ kind }) => kind === 'cold-tank')
  const heaters = all.filter((one) => isHeater(one))
  return [
    ...entries.map((one) => wish(one, 'entry', 'Water as it enters: tells whether the supply brings it in.')),
    ...heaters.map((one) =>
      wish(one, 'heater', `${componentName(one)}: tells whether the hot system is colonised at its source.`),
    ),
    ...returnWishes(context),
    ...tanks.map((one) =>
      wish(one, 'entry', `${componentName(one)}: stored cold water can warm and lose its residual.`),
    ),
  ]
}

const wish = (component: Component, obligation: 'entry' | 'heater', text: string): Wish => ({
  component,
  reason: because(obligation, { text, evidence: [component.id] }),
})

function returnWishes(context: PlanContext): Wish[] {
  const taken = new Set<string>()
  return returnLegs(context.graph).flatMap((leg): Wish[] => {
    const way = wayOf(context, leg)
    const ownRiser = way.filter((one) => one.riser === leg.riser && one.id !== leg.from)
    const component = [ownRiser.at(-1), way.at(-1), way[0]].find((one) => one !== undefined && !taken.has(one.id))
    if (component === undefined) return []
    taken.add(component.id)
    const text = `Return${leg.riser === undefined ? '' : ` of riser ${leg.riser}`}: the coolest hot water of the loop, before it mixes with others.`
    return [{ component, reason: because('return', { text, evidence: [...leg.pipes] }) }]
  })
}

/** The components of a return from where it leaves the flow to where it joins others. */
function wayOf({ graph }: PlanContext, leg: { from: string; pipes: readonly string[] }): Component[] {
  const ids = [leg.from]
  for (const id of leg.pipes) {
    const pipe = graph.pipes.get(id)
    if (pipe !== undefined) ids.push(otherEnd(pipe, ids.at(-1) ?? leg.from))
  }
  return ids.flatMap((id) => graph.components.get(id) ?? [])
}

/** The farthest outlet of every riser, then the nearest: on the warm circuit, on the cold where no warm water comes. */
export function riserWishes(context: PlanContext): Wish[] {
  const warm = riserEnds(context.graph, only(context, ['hot', 'tempered']))
  const warmRisers = new Set(warm.map(({ riser }) => riser))
  const cold = riserEnds(context.graph, only(context, ['cold'])).filter(({ riser }) => !warmRisers.has(riser))
  const ends = longestOf([...warm, ...cold])
  const at = (which: 'farthest' | 'nearest'): Wish[] =>
    ends.flatMap((end): Wish[] => {
      const component = context.graph.components.get(end[which].outlet)
      if (component === undefined) return []
      const metres = Math.round(end[which].lengthM)
      const text = `${which === 'farthest' ? 'Farthest' : 'Nearest'} outlet of riser ${end.riser} on the ${end.circuit} side, about ${metres} m of pipe from its source.`
      return [
        {
          component,
          reason: because(`${which} outlet`, { text, evidence: [component.id] }),
          step: which === 'farthest' ? 0 : 1,
        },
      ]
    })
  return [...at('farthest'), ...at('nearest')]
}

type End = ReturnType<typeof riserEnds>[number]

/** One pair of ends a riser: tempered and hot outlets of one riser are one row of outlets to the walker. */
function longestOf(ends: readonly End[]): End[] {
  const byRiser = new Map<string, End>()
  for (const end of ends) {
    const known = byRiser.get(end.riser)
    if (known === undefined) byRiser.set(end.riser, end)
    else
      byRiser.set(end.riser, {
        ...known,
        nearest: end.nearest.lengthM < known.nearest.lengthM ? end.nearest : known.nearest,
        farthest: end.farthest.lengthM > known.farthest.lengthM ? end.farthest : known.farthest,
      })
  }
  return [...byRiser.values()]
}

const only = ({ reaches }: PlanContext, circuits: Circuit[]): Map<Circuit, Reach> =>
  new Map(
    circuits.flatMap((circuit) => {
      const reach = reaches.get(circuit)
      return reach === undefined ? [] : [[circuit, reach] as const]
    }),
  )

/** True where the farthest outlets also have cold water worth reading: its warmest is at the end. */
export const readsCold = (context: PlanContext, component: Component): boolean =>
  warmCircuit(context, component) !== undefined && context.reaches.get('cold')?.has(component.id) === true
