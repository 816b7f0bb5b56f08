/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { waterDensityKgPerM3, waterHeatCapacityJPerKgK } from '../water/liquid-water.ts'
import type { Network, Vessel } from './network.ts'
import { WATER, WATER_FIELDS, type WaterChange } from './water-change.ts'

const SECONDS_PER_MINUTE = 60
const MINUTES_PER_HOUR = 60
const LITRES_PER_M3 = 1000
/** A tank changes its temperature little in a step; one value of its heat capacity serves. */
const HEAT_AT_C = 40

/** One vessel as the simulation keeps it. */
export interface VesselState {
  node: number
  vessel: Vessel
  layers: number
  layerL: number
  /** Rows = layers from the bottom, columns = quantities. */
  water: Float64Array
  /** Litres that came in during the step: at the bottom, and at the return layer; then their sums of volume × quantity. */
  inL: Float64Array
  inSums: Float64Array
}

/**
 * The tanks and storage heaters of a network: full, of one or a few mixed layers, each layer a stirred tank through which water
 * rises. What is in them ages, decays, cools and is heated in two halves around the water that passes.
 */
export class VesselBank {
  readonly states: VesselState[]
  readonly #byNode = new Map<number, VesselState>()
  readonly #change: WaterChange
  readonly #ageCap: number
  /** Heat put in and lost since the start, in litres × K. */
  heatedLK = 0
  lostLK = 0
  /** Litres × K of water that small vessels were granted; see `#makeRoom`. */
  addedLK = 0

  constructor(of: { network: Network; change: WaterChange; ageCapMinutes: number }) {
    this.#change = of.change
    this.#ageCap = of.ageCapMinutes
    this.states = of.network.nodes.flatMap((node, index) => (node.kind === 'vessel' ? [emptyVessel(index, node)] : []))
    for (const state of this.states) this.#byNode.set(state.node, state)
  }

  at(node: number): VesselState {
    const state = this.#byNode.get(node)
    if (state === undefined) throw new RangeError(`Cannot look into a vessel because the node is none: got ${node}`)
    return state
  }

  /** Half a step of standing, before water passes. */
  age(minutes: number): void {
    for (const state of this.states) this.#ageVessel(state, minutes)
  }

  /** Writes the water that leaves over the step, given what came in; `known` false where it goes round and comes later. */
  send({ node, known }: { node: number; known: boolean }, out: Float64Array): void {
    const state = this.at(node)
    if (known) this.#displace(state, out)
    else {
      const top = (state.layers - 1) * WATER_FIELDS
      for (let quantity = 0; quantity < WATER_FIELDS; quantity++) out[quantity] = state.water[top + quantity]!
    }
  }

  /** Takes in what came in after the water was sent on. */
  take(node: number, sent: Float64Array): void {
    const state = this.at(node)
    this.#makeRoom(state)
    const { water, layers, layerL, inL, inSums } = state
    // from the top down: each layer takes what the one below it held
    let rising = inL[0]! + inL[1]!
    for (let layer = layers - 1; layer >= 0; layer--) {
      const returned = layer === returnLayerOf(state) ? inL[1]! : 0
      const below = rising - returned
      for (let quantity = 0; quantity < WATER_FIELDS; quantity++) {
        const at = layer * WATER_FIELDS + quantity
        const from = layer === 0 ? inSums[quantity]! : below * water[at - WATER_FIELDS]!
        const left = layer === layers - 1 ? sent[quantity]! : water[at]!
        const back = returned > 0 ? inSums[WATER_FIELDS + quantity]! : 0
        water[at] = water[at]! + (from + back - rising * left) / layerL
      }
      rising = below
    }
    clearInflow(state)
  }

  /** A vessel through which more than a layer passes in one step is taken as holding that much. */
  #makeRoom(state: VesselState): void {
    const passes = state.inL[0]! + state.inL[1]!
    if (passes <= state.layerL) return
    for (let layer = 0; layer < state.layers; layer++)
      this.addedLK += (passes - state.layerL) * state.water[layer * WATER_FIELDS + WATER.temperature]!
    state.layerL = passes
  }

  /** Stirred tanks in a row: exact for an inflow that is steady over the step. */
  #displace(state: VesselState, out: Float64Array): void {
    const { water, layers, layerL, inL, inSums } = state
    let litres = inL[0]!
    for (let quantity = 0; quantity < WATER_FIELDS; quantity++)
      out[quantity] = litres > 0 ? inSums[quantity]! / litres : 0
    for (let layer = 0; layer < layers; layer++) {
      if (layer === returnLayerOf(state) && inL[1]! > 0) {
        const joined = litres + inL[1]!
        for (let quantity = 0; quantity < WATER_FIELDS; quantity++)
          out[quantity] = (litres * out[quantity]! + inSums[WATER_FIELDS + quantity]!) / joined
        litres = joined
      }
      const passes = litres / layerL
      const kept = Math.exp(-passes)
      for (let quantity = 0; quantity < WATER_FIELDS; quantity++) {
        const at = layer * WATER_FIELDS + quantity
        const apart = water[at]! - out[quantity]!
        const sent = passes > 0 ? out[quantity]! + (apart * (1 - kept)) / passes : water[at]!
        water[at] = out[quantity]! + apart * kept
        out[quantity] = sent
      }
    }
    clearInflow(state)
  }

  #ageVessel(state: VesselState, minutes: number): void {
    const { vessel, water, layers, layerL } = state
    const heatJPerLK = (waterDensityKgPerM3(HEAT_AT_C) * waterHeatCapacityJPerKgK(HEAT_AT_C)) / LITRES_PER_M3
    const lossPerMinute = (SECONDS_PER_MINUTE * vessel.lossWPerK) / (layers * layerL * heatJPerLK)
    const lost = 1 - Math.exp(-lossPerMinute * minutes)
    const current = this.#change.water
    for (let layer = 0; layer < layers; layer++) {
      const row = layer * WATER_FIELDS
      const beforeC = water[row + WATER.temperature]!
      const cooledC = beforeC - lost * (beforeC - vessel.ambientC)
      this.lostLK += layerL * (beforeC - cooledC)
      const afterC = heatedC(vessel, { layer, cooledC })
      this.heatedLK += layerL * (afterC - cooledC)
      for (let quantity = 0; quantity < WATER_FIELDS; quantity++) current[quantity] = water[row + quantity]!
      // water no older than is told has reacted for no longer
      const reacting = Math.min(minutes, this.#ageCap - water[row + WATER.age]!)
      this.#change.react(afterC, reacting / MINUTES_PER_HOUR)
      for (let quantity = 0; quantity < WATER_FIELDS; quantity++) water[row + quantity] = current[quantity]!
      water[row + WATER.temperature] = afterC
      water[row + WATER.age] = Math.min(water[row + WATER.age]! + minutes, this.#ageCap)
    }
  }
}

function heatedC(
  { setpointC, heatedFromLayer }: Vessel,
  { layer, cooledC }: { layer: number; cooledC: number },
): number {
  return setpointC === undefined || layer < heatedFromLayer ? cooledC : Math.max(cooledC, setpointC)
}

const returnLayerOf = ({ vessel, layers }: VesselState): number => Math.min(vessel.returnLayer, layers - 1)

function clearInflow({ inL, inSums }: VesselState): void {
  inL.fill(0)
  inSums.fill(0)
}

function emptyVessel(node: number, vessel: Vessel): VesselState {
  const layers = Math.max(1, vessel.layers)
  return {
    node,
    vessel,
    layers,
    layerL: vessel.volumeL / layers,
    water: new Float64Array(layers * WATER_FIELDS),
    inL: new Float64Array(2),
    inSums: new Float64Array(2 * WATER_FIELDS),
  }
}
