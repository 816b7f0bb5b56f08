/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { FlowField } from './flow-field.ts'
import type { FlowOrder } from './flow-order.ts'
import type { Draw, Network, NetworkOutlet, NetworkPipe, NetworkValve } from './network.ts'
import { pipeVolumeL } from './pipe-rates.ts'
import { waterDensityKgPerM3, waterHeatCapacityJPerKgK } from '../water/liquid-water.ts'

const MINUTES_PER_DAY = 1440
const SECONDS_PER_MINUTE = 60
const LITRES_PER_M3 = 1000
const HEAT_AT_C = 40
const MOST_ROUNDS = 400
const SETTLED_K = 1e-3
const SETTLED_SHARE = 1e-4
const FLOWS_L_PER_MIN = 1e-6

/** The building as if the day's water ran evenly: where the simulation begins. */
export interface MeanState {
  flows: Float64Array
  /** By node: °C, and minutes of age. */
  temperatureC: Float64Array
  ageMinutes: Float64Array
}

/**
 * Temperatures (°C) and ages (minutes) of every node for the day's mean flows.
 * Wanted to begin near the repeating day: from cold and new water a large tank takes weeks to come to its own.
 *
 * θ′ = θ e^(−U L / (ρ cp Q)), age + V/Q along each pipe; mixing by flow; a heater at its set point; repeated until it holds.
 *
 * Special cases: a pipe without mean flow has the air's temperature at its ends if nothing else comes there; age ends at the cap.
 *
 * @param of.field demands are set to the day's mean and left so
 * @source plug-flow-heat-balance
 */
export function meanState(of: {
  network: Network
  field: FlowField
  order: FlowOrder
  ageCapMinutes: number
}): MeanState {
  const { network, field, order } = of
  askMeans(network, field)
  order.follow(field.flows, field.takeChanged())
  const flows = field.flows.slice()
  const state: MeanState = {
    flows,
    temperatureC: startC(network),
    ageMinutes: new Float64Array(network.nodes.length),
  }
  const round = new MeanRound({ ...of, state })
  for (let turn = 0; turn < MOST_ROUNDS; turn++) if (round.settle()) break
  return state
}

/** Share of hot water when nothing is known but set points. */
function expectedShare(draw: Draw, { hotC, coldC }: { hotC: number; coldC: number }): number {
  if (draw.mixToC === undefined) return 0.5
  return hotC <= coldC ? 0.5 : Math.min(1, Math.max(0, (draw.mixToC - coldC) / (hotC - coldC)))
}

function askMeans(network: Network, field: FlowField): void {
  const hotC = hottestC(network)
  const coldC = coldestC(network)
  const asked = new Float64Array(network.nodes.length)
  const ask = (node: number, lPerMin: number): void => {
    asked[node]! += lPerMin
    field.setDemand(node, asked[node]!)
  }
  for (const outlet of network.outlets) askMean({ outlet, ask, hotC, coldC })
  field.settle()
  for (const { hotNode, coldNode, mixedNode, setpointC } of network.valves) {
    const flow = field.outflowOf(mixedNode)
    const share = expectedShare({ startMinute: 0, minutes: 0, flowLPerMin: 0, mixToC: setpointC }, { hotC, coldC })
    ask(hotNode, share * flow)
    ask(coldNode, (1 - share) * flow)
    field.settle()
  }
}

function askMean(of: {
  outlet: NetworkOutlet
  ask: (node: number, lPerMin: number) => void
  hotC: number
  coldC: number
}): void {
  const { hotNode, coldNode, draws } = of.outlet
  let hot = 0
  let all = 0
  for (const draw of draws) {
    const mean = (draw.flowLPerMin * Math.min(draw.minutes, MINUTES_PER_DAY)) / MINUTES_PER_DAY
    all += mean
    hot += mean * (hotNode === undefined ? 0 : coldNode === undefined ? 1 : expectedShare(draw, of))
  }
  if (hotNode !== undefined) of.ask(hotNode, hot)
  if (coldNode !== undefined) of.ask(coldNode, all - hot)
}

const setpoints = ({ nodes }: Network): number[] =>
  nodes.flatMap((node) => ('setpointC' in node && node.setpointC !== undefined ? [node.setpointC] : []))

const supplies = ({ nodes }: Network): number[] =>
  nodes.flatMap((node) => (node.kind === 'source' ? [node.temperatureC] : []))

const coldestC = (network: Network): number => supplies(network).reduce((low, one) => Math.min(low, one), 100)

const hottestC = (network: Network): number => setpoints(network).reduce((high, one) => Math.max(high, one), 0)

function startC(network: Network): Float64Array {
  const found = new Float64Array(network.nodes.length).fill(coldestC(network))
  for (const [index, node] of network.nodes.entries()) {
    if (node.kind === 'source') found[index] = node.temperatureC
    else if ('setpointC' in node && node.setpointC !== undefined) found[index] = node.setpointC
  }
  return found
}

/** By pipe. */
interface Cooling {
  volumeL: Float64Array
  ambientC: Float64Array
  /** L/min at which water cools to 1/e along the pipe. */
  lPerMin: Float64Array
}

function coolingOf(pipes: readonly NetworkPipe[]): Cooling {
  const heatJPerLK = (waterDensityKgPerM3(HEAT_AT_C) * waterHeatCapacityJPerKgK(HEAT_AT_C)) / LITRES_PER_M3
  return {
    volumeL: Float64Array.from(pipes, pipeVolumeL),
    ambientC: Float64Array.from(pipes, ({ ambientC }) => ambientC),
    lPerMin: Float64Array.from(pipes, (pipe) => (SECONDS_PER_MINUTE * pipe.lossWPerMK * pipe.lengthM) / heatJPerLK),
  }
}

/** Goes through the pipes in their order, round after round. */
class MeanRound {
  readonly #network: Network
  readonly #order: FlowOrder
  readonly #state: MeanState
  readonly #cooling: Cooling
  readonly #ageCap: number
  readonly #from: Int32Array
  readonly #to: Int32Array
  readonly #came: Float64Array
  readonly #sumC: Float64Array
  readonly #sumAge: Float64Array
  readonly #done: Uint8Array
  readonly #valves: ReadonlyMap<number, NetworkValve>
  #held = true

  constructor(of: { network: Network; order: FlowOrder; state: MeanState; ageCapMinutes: number }) {
    const { nodes, pipes, valves } = of.network
    this.#network = of.network
    this.#order = of.order
    this.#state = of.state
    this.#cooling = coolingOf(pipes)
    this.#ageCap = of.ageCapMinutes
    this.#from = Int32Array.from(pipes, ({ from }) => from)
    this.#to = Int32Array.from(pipes, ({ to }) => to)
    this.#came = new Float64Array(nodes.length)
    this.#sumC = new Float64Array(nodes.length)
    this.#sumAge = new Float64Array(nodes.length)
    this.#done = new Uint8Array(nodes.length)
    this.#valves = new Map(valves.map((valve) => [valve.mixedNode, valve]))
  }

  /** One pass through the pipes; true where it changed next to nothing. */
  settle(): boolean {
    const { flows, temperatureC, ageMinutes } = this.#state
    const { ambientC, lPerMin, volumeL } = this.#cooling
    for (const each of [this.#came, this.#sumC, this.#sumAge, this.#done]) each.fill(0)
    this.#held = true
    for (const pipe of this.#order.list.pipes) {
      const flow = Math.abs(flows[pipe]!)
      if (flow < FLOWS_L_PER_MIN) continue
      const along = flows[pipe]! > 0
      const up = along ? this.#from[pipe]! : this.#to[pipe]!
      const down = along ? this.#to[pipe]! : this.#from[pipe]!
      this.#send(up)
      const airC = ambientC[pipe]!
      const age = ageMinutes[up]! + volumeL[pipe]! / flow
      this.#came[down]! += flow
      this.#sumC[down]! += flow * (airC + (temperatureC[up]! - airC) * Math.exp(-lPerMin[pipe]! / flow))
      this.#sumAge[down]! += flow * Math.min(age, this.#ageCap)
    }
    for (let node = 0; node < this.#done.length; node++) this.#finish(node)
    return this.#held
  }

  #send(node: number): void {
    if (this.#done[node] === 1) return
    const valve = this.#valves.get(node)
    if (valve !== undefined) this.#blend(valve)
    if (this.#order.opened[node] === 0) this.#finish(node)
  }

  #blend({ hotNode, coldNode, mixedNode }: NetworkValve): void {
    for (const port of [hotNode, coldNode]) {
      this.#finish(port)
      const came = this.#came[port]!
      this.#came[mixedNode]! += came
      this.#sumC[mixedNode]! += came * this.#state.temperatureC[port]!
      this.#sumAge[mixedNode]! += came * Math.min(this.#state.ageMinutes[port]!, this.#ageCap)
    }
  }

  #finish(node: number): void {
    if (this.#done[node] === 1) return
    this.#done[node] = 1
    const came = this.#came[node]!
    if (came === 0) return
    const { temperatureC, ageMinutes } = this.#state
    const mixed = { node, came, meanC: this.#sumC[node]! / came, age: this.#sumAge[node]! / came }
    const next = mixedAt(this.#network, mixed)
    const age = Math.min(next.ageMinutes, this.#ageCap)
    if (Math.abs(next.temperatureC - temperatureC[node]!) > SETTLED_K) this.#held = false
    if (Math.abs(age - ageMinutes[node]!) > SETTLED_SHARE * age) this.#held = false
    temperatureC[node] = next.temperatureC
    ageMinutes[node] = age
  }
}

function mixedAt(
  { nodes }: Network,
  { node, came, meanC, age }: { node: number; came: number; meanC: number; age: number },
): { temperatureC: number; ageMinutes: number } {
  const one = nodes[node]!
  if (one.kind === 'source') return { temperatureC: one.temperatureC, ageMinutes: 0 }
  if (one.kind === 'heater') return { temperatureC: Math.max(meanC, one.setpointC), ageMinutes: age }
  if (one.kind !== 'vessel') return { temperatureC: meanC, ageMinutes: age }
  const heatLPerMin =
    (SECONDS_PER_MINUTE * one.lossWPerK * LITRES_PER_M3) /
    (waterDensityKgPerM3(HEAT_AT_C) * waterHeatCapacityJPerKgK(HEAT_AT_C))
  const cooled = (came * meanC + heatLPerMin * one.ambientC) / (came + heatLPerMin)
  return { temperatureC: Math.max(cooled, one.setpointC ?? cooled), ageMinutes: age + one.volumeL / came }
}
