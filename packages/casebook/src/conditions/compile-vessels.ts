import table from '@rillmark/reference/conditions/filled-in.json' with { type: 'json' }
import type { NetworkNode, Vessel } from '@rillmark/science/network/network.ts'
import { hasCircuit } from '../building/graph.ts'
import type { Component } from '../building/water-system.ts'
import { airAroundC } from './air-around.ts'
import type { NetworkDraft } from './network-draft.ts'

const { labelClassC: CLASS_C, heater: LAYERED } = table
const L_PER_M3 = 1000
const SIDES_OF_A_CUBE = 6

/** A storage heater: mixed where circulation comes back to it, else in layers; it loses heat to the air around it. */
export function storageHeater(draft: NetworkDraft, component: Component): NetworkNode {
  const { id } = component
  const mixed = hasCircuit(draft.graph, { id, circuit: 'hot-return' })
  draft.choose(mixed ? 'heaterMixed' : 'heaterLayers', id)
  const volumeL = volumeOf(draft, { component, filled: 'storageHeaterL' })
  return {
    id,
    kind: 'vessel',
    volumeL,
    layers: mixed ? 1 : LAYERED.layers,
    heatedFromLayer: mixed ? 0 : LAYERED.heatedFromLayer,
    returnLayer: 0,
    setpointC: heaterSetpointC(draft, component),
    ...surroundings(draft, { component, usual: () => classLossWPerK(volumeL) * draft.fillIn('heaterLoss', id) }),
  }
}

/** A cold tank: mixed, not heated, taking up heat from the air. */
export function coldTank(draft: NetworkDraft, component: Component): NetworkNode {
  const volumeL = volumeOf(draft, { component, filled: 'coldTankL' })
  const usual = (): number => cubeSurfaceM2(volumeL) * draft.fillIn('coldTankLossWPerM2K', component.id)
  const around = surroundings(draft, { component, usual })
  return { id: component.id, kind: 'vessel', volumeL, layers: 1, heatedFromLayer: 0, returnLayer: 0, ...around }
}

/** What a heater is set to (°C), with what is tried in its place. `compileNetwork` asks only where it is described. */
export function heaterSetpointC(draft: NetworkDraft, component: Component): number {
  const tried = draft.overrides.setpointC?.[component.id]
  if (tried !== undefined) return withinLiquid(tried)
  return withinLiquid(draft.described(component, { fact: 'setpointC', value: component.setpointC ?? 0 }))
}

/** Water is liquid up to here at ordinary pressure, and the properties are tabulated for it. */
const BOILS_C = 100
const withinLiquid = (temperatureC: number): number => Math.min(Math.max(temperatureC, 0), BOILS_C)

function volumeOf(
  draft: NetworkDraft,
  { component, filled }: { component: Component; filled: 'storageHeaterL' | 'coldTankL' },
): number {
  if (component.volumeL === undefined) return draft.fillIn(filled, component.id)
  return draft.described(component, { fact: 'volumeL', value: component.volumeL })
}

function surroundings(
  draft: NetworkDraft,
  { component, usual }: { component: Component; usual: () => number },
): Pick<Vessel, 'lossWPerK' | 'ambientC'> {
  const { heatLossWPerK: value } = component
  const loss = value === undefined ? usual() : draft.described(component, { fact: 'heatLossWPerK', value })
  const { hotLossFactor = 1, coldLossFactor = 1 } = draft.overrides
  return {
    lossWPerK: loss * (component.kind === 'cold-tank' ? coldLossFactor : hotLossFactor),
    ambientC: airAroundC(draft, component),
  }
}

const classLossWPerK = (volumeL: number): number =>
  (CLASS_C.constantW + CLASS_C.factorW * volumeL ** CLASS_C.power) / CLASS_C.differenceK

const cubeSurfaceM2 = (volumeL: number): number => SIDES_OF_A_CUBE * (volumeL / L_PER_M3) ** (2 / 3)
