import { floorWords } from '../building/floor-words.ts'
import { componentName } from '../building/labels.ts'
import { otherEnd, type SystemGraph } from '../building/graph.ts'
import type { Circuit, Component, Pipe, WaterSystem } from '../building/water-system.ts'

/** What is needed to name a part: the system and its graph. */
export interface Naming {
  readonly system: WaterSystem
  readonly graph: SystemGraph
}

/** A component as people point at it: its name, or of a joint without a label where it is. */
export function placeWords({ system, graph }: Naming, id: string): string {
  const component = graph.components.get(id)
  if (component === undefined) return 'a part that is not described'
  if (component.kind !== 'junction' || component.label !== undefined) return componentName(component)
  return jointWords({ system, graph }, component)
}

function jointWords({ system, graph }: Naming, component: Component): string {
  const riser = component.riser === undefined ? undefined : `riser ${component.riser}`
  const floor = component.floor === undefined ? undefined : floorWords(system.floors, component.floor)
  if (riser !== undefined || floor !== undefined) return [riser, floor].filter((one) => one !== undefined).join(', ')
  const near = graph
    .pipesAt(component.id)
    .map((pipe) => graph.components.get(otherEnd(pipe, component.id)))
    .find((one) => one !== undefined && one.kind !== 'junction')
  return near === undefined ? 'a joint of pipes' : `the joint beside ${componentName(near)}`
}

const CARRIES: Readonly<Record<Circuit, string>> = {
  cold: 'cold pipe',
  hot: 'hot pipe',
  tempered: 'tempered pipe',
  'hot-return': 'return',
}

/** A pipe by its label, else by what it carries and where it lies: `hot pipe from riser C, floor 5 to riser C, floor 6`. */
export function pipeWords(naming: Naming, pipe: Pipe): string {
  if (pipe.label !== undefined) return pipe.label
  return `${CARRIES[pipe.circuit]} from ${placeWords(naming, pipe.from)} to ${placeWords(naming, pipe.to)}`
}
