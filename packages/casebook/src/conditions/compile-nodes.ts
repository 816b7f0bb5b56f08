import { hasCircuit } from '../building/graph.ts'
import type { Component, Pipe } from '../building/water-system.ts'
import { isOutlet } from '../building/water-system.ts'
import type { Arriving, PlacedComponent } from './compiled.ts'
import { coldTank, heaterSetpointC, storageHeater } from './compile-vessels.ts'
import type { NetworkDraft } from './network-draft.ts'

const ARRIVING: readonly Arriving[] = ['hot', 'tempered', 'cold']

/** A node for every component; one for each circuit of an outlet, and for each side of a mixing valve. */
export function compileNodes(draft: NetworkDraft): void {
  const supplyC = supplyTemperatureC(draft)
  const residualMgPerL = supplyResidualMgPerL(draft)
  for (const component of draft.system.components) {
    const { id } = component
    if (isOutlet(component)) draft.placed.set(id, outletPorts(draft, component))
    else if (component.kind === 'mixing-valve') draft.placed.set(id, valvePorts(draft, component))
    else if (component.kind === 'supply-entry') {
      const node = draft.addNode({ id, kind: 'source', temperatureC: supplyC, residualMgPerL })
      draft.placed.set(id, { node, circuits: {} })
    } else draft.placed.set(id, { node: plantNode(draft, component), circuits: {} })
  }
}

function plantNode(draft: NetworkDraft, component: Component): number {
  const { id, kind } = component
  if (kind === 'storage-heater') return draft.addNode(storageHeater(draft, component))
  if (kind === 'cold-tank') return draft.addNode(coldTank(draft, component))
  if (kind === 'instant-heater')
    return draft.addNode({ id, kind: 'heater', setpointC: heaterSetpointC(draft, component) })
  return draft.addNode({ id, kind: 'junction' })
}

function outletPorts(draft: NetworkDraft, { id }: Component): PlacedComponent {
  const circuits: PlacedComponent['circuits'] = {}
  for (const circuit of ARRIVING)
    if (hasCircuit(draft.graph, { id, circuit }))
      circuits[circuit] = draft.addNode({ id: `${id} ${circuit}`, kind: 'junction' })
  // a return that passes an outlet brings it hot water, where no other pipe does
  if (
    circuits.hot === undefined &&
    circuits.tempered === undefined &&
    hasCircuit(draft.graph, { id, circuit: 'hot-return' })
  )
    circuits.hot = draft.addNode({ id: `${id} hot`, kind: 'junction' })
  return { circuits }
}

function valvePorts(draft: NetworkDraft, component: Component): PlacedComponent {
  const { id, setpointC } = component
  const hotNode = draft.addNode({ id: `${id} hot`, kind: 'junction' })
  const coldNode = draft.addNode({ id: `${id} cold`, kind: 'junction' })
  const mixedNode = draft.addNode({ id, kind: 'mixed' })
  const described =
    setpointC === undefined
      ? draft.fillIn('temperedC', id)
      : draft.described(component, { fact: 'setpointC', value: setpointC })
  const set = draft.overrides.setpointC?.[id] ?? described
  draft.valves.push({ id, hotNode, coldNode, mixedNode, setpointC: set })
  return { node: mixedNode, circuits: { hot: hotNode, cold: coldNode, tempered: mixedNode } }
}

/** The node at which a pipe ends at a component: of its own circuit, or the component's only one. */
export function nodeOfPipe(draft: NetworkDraft, { id, pipe }: { id: string; pipe: Pipe }): number {
  const placed = draft.placed.get(id)
  const circuits = placed?.circuits ?? {}
  const atValve = draft.graph.components.get(id)?.kind === 'mixing-valve'
  const returned = atValve ? circuits.cold : (circuits.hot ?? circuits.tempered ?? circuits.cold)
  const node = (pipe.circuit === 'hot-return' ? returned : circuits[pipe.circuit]) ?? placed?.node
  if (node === undefined) throw new RangeError(`Cannot join pipe ${pipe.id} because ${id} has no node`)
  return node
}

function supplyTemperatureC(draft: NetworkDraft): number {
  if (draft.overrides.supplyTemperatureC !== undefined) return draft.overrides.supplyTemperatureC
  const { supply } = draft.system
  return draft.described({ id: 'supply', ...supply }, { fact: 'temperatureC', value: supply.temperatureC })
}

function supplyResidualMgPerL(draft: NetworkDraft): number {
  const { supply } = draft.system
  const { kind, residualMgPerL } = supply.disinfectant
  if (draft.overrides.supplyResidualMgPerL !== undefined) return draft.overrides.supplyResidualMgPerL
  if (residualMgPerL !== undefined)
    return draft.described({ id: 'supply', ...supply }, { fact: 'disinfectant', value: residualMgPerL })
  if (kind === 'none') return 0
  draft.residualKnown = draft.overrides.assumed?.['supplyResidualMgPerL'] !== undefined
  draft.cannotSay.push({
    at: 'supply.disinfectant.residualMgPerL',
    why: 'no residual is shown, because the supply’s is not described',
    needs: 'the residual of the supply in mg/L, 0 where there is none',
  })
  return draft.fillIn('supplyResidualMgPerL', 'supply')
}
