import type { Circuit, Component, WaterSystem } from '../building/water-system.ts'
import { isOutlet } from '../building/water-system.ts'
import type { ComponentConditions, PlaceConditions } from './conditions.ts'
import type { Side } from './shown-quantity.ts'

/** Hot takes in what returns and what is mixed: to whoever draws it, it is not the cold tap. */
export const sideOfCircuit = (circuit: Circuit): Side => (circuit === 'cold' ? 'cold' : 'hot')

/** Which water is in each part that is no outlet: hot where any of its pipes is; of an outlet both sides are told apart. */
export function sidesOfPlant(system: WaterSystem): Map<string, Side> {
  const sides = new Map<string, Side>()
  for (const { from, to, circuit } of system.pipes)
    for (const id of [from, to]) if (sides.get(id) !== 'hot') sides.set(id, sideOfCircuit(circuit))
  return sides
}

export type ArrivingAs = 'hot' | 'cold' | 'tempered'

/** What is known of the water on one side of an outlet, and as what it arrives. */
export function arriving(
  { circuits }: Pick<ComponentConditions, 'circuits'>,
  side: Side,
): { as: ArrivingAs; place: PlaceConditions } | undefined {
  const order: readonly ArrivingAs[] = side === 'cold' ? ['cold'] : ['hot', 'tempered']
  for (const as of order) {
    const place = circuits?.[as]
    if (place !== undefined) return { as, place }
  }
  return undefined
}

/** The water of a part on one side; undefined where it has none there. */
export function placeOn(
  side: Side,
  of: { component: Component; conditions: ComponentConditions; plantSides: ReadonlyMap<string, Side> },
): PlaceConditions | undefined {
  const { component, conditions, plantSides } = of
  if (isOutlet(component)) return arriving(conditions, side)?.place
  return plantSides.get(component.id) === side ? conditions : undefined
}

/** The pipe through which each kind of water comes to each outlet, by component and circuit: where its curve of the day is kept. */
export function arrivalPipes(system: WaterSystem): Map<string, Partial<Record<Circuit, string>>> {
  const outlets = new Set(system.components.filter(isOutlet).map(({ id }) => id))
  const pipes = new Map<string, Partial<Record<Circuit, string>>>()
  for (const { id, from, to, circuit } of system.pipes)
    for (const end of [from, to]) if (outlets.has(end)) pipes.set(end, { [circuit]: id, ...pipes.get(end) })
  return pipes
}
