/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { FlowField } from './flow-field.ts'
import type { FlowOrder } from './flow-order.ts'
import type { Draw, Network, NetworkOutlet, NetworkPipe } from './network.ts'
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
  const rates = network.pipes.map((pipe) => coolingOf(pipe))
  for (let round = 0; round < MOST_ROUNDS; round++) if (settleRound({ ...of, state, rates })) break
  return state
}

/** Share of hot water when nothing is known but set points. */
function expectedShare(draw: Draw, { hotC, coldC }: { hotC: number; coldC: number }): number {
  if (draw.mixToC === undefined) return draw.side === 'hot' ? 1 : draw.side === 'cold' ? 0 : 0.5
  return hotC <= coldC ? 0.5 : Math.min(1, Math.max(0, (draw.mixToC - coldC) / (hotC - coldC)))
}

function askMeans(network: Network, field: FlowField): void {
  const hotC = hottestC(network)
  const coldC = coldestC(network)
  for (const outlet of network.outlets) askMean({ outlet, field, hotC, coldC })
  field.settle()
  for (const { hotNode, coldNode, mixedNode, setpointC } of network.valves) {
    const flow = field.outflowOf(mixedNode)
    const share = expectedShare({ startMinute: 0, minutes: 0, flowLPerMin: 0, mixToC: setpointC }, { hotC, coldC })
    field.setDemand(hotNode, share * flow)
    field.setDemand(coldNode, (1 - share) * flow)
    field.settle()
  }
}

function askMean(of: { outlet: NetworkOutlet; field: FlowField; hotC: number; coldC: number }): void {
  const { hotNode, coldNode, draws } = of.outlet
  let hot = 0
  let all = 0
  for (const draw of draws) {
    const mean = (draw.flowLPerMin * Math.min(draw.minutes, MINUTES_PER_DAY)) / MINUTES_PER_DAY
    all += mean
    hot += mean * (hotNode === undefined ? 0 : coldNode === undefined ? 1 : expectedShare(draw, of))
  }
  if (hotNode !== undefined) of.field.setDemand(hotNode, hot)
  if (coldNode !== undefined) of.field.setDemand(coldNode, all - hot)
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

interface Cooling {
  volumeL: number
  ambientC: number
  /** L/min at which water cools to 1/e along the pipe. */
  lPerMin: number
}

function coolingOf(pipe: NetworkPipe): Cooling {
  const heatJPerLK = (waterDensityKgPerM3(HEAT_AT_C) * waterHeatCapacityJPerKgK(HEAT_AT_C)) / LITRES_PER_M3
  return {
    volumeL: pipeVolumeL(pipe),
    ambientC: pipe.ambientC,
    lPerMin: (SECONDS_PER_MINUTE * pipe.lossWPerMK * pipe.lengthM) / heatJPerLK,
  }
}

interface Round {
  network: Network
  order: FlowOrder
  state: MeanState
  rates: readonly Cooling[]
  ageCapMinutes: number
}

/** One pass through the pipes; true where it changed next to nothing. */
function settleRound({ network, order, state, rates, ageCapMinutes }: Round): boolean {
  const nodes = network.nodes.length
  const came = new Float64Array(nodes)
  const sumC = new Float64Array(nodes)
  const sumAge = new Float64Array(nodes)
  const done = new Uint8Array(nodes)
  let held = true
  const bring = (node: number, water: { flow: number; temperatureC: number; ageMinutes: number }): void => {
    came[node]! += water.flow
    sumC[node]! += water.flow * water.temperatureC
    sumAge[node]! += water.flow * Math.min(water.ageMinutes, ageCapMinutes)
  }
  const finish = (node: number): void => {
    if (done[node] === 1) return
    done[node] = 1
    if (came[node] === 0) return
    const next = mixedAt(network, {
      node,
      came: came[node]!,
      meanC: sumC[node]! / came[node]!,
      age: sumAge[node]! / came[node]!,
    })
    const age = Math.min(next.ageMinutes, ageCapMinutes)
    if (Math.abs(next.temperatureC - state.temperatureC[node]!) > SETTLED_K) held = false
    if (Math.abs(age - state.ageMinutes[node]!) > SETTLED_SHARE * age) held = false
    state.temperatureC[node] = next.temperatureC
    state.ageMinutes[node] = age
  }
  const blend = new Map(network.valves.map((valve) => [valve.mixedNode, valve]))
  const sendOf = (node: number): void => {
    const valve = blend.get(node)
    if (valve !== undefined && done[node] === 0) {
      finish(valve.hotNode)
      finish(valve.coldNode)
      for (const port of [valve.hotNode, valve.coldNode])
        bring(node, { flow: came[port]!, temperatureC: state.temperatureC[port]!, ageMinutes: state.ageMinutes[port]! })
    }
    if (order.opened[node] === 0) finish(node)
  }
  for (const pipe of order.pipes) {
    const flow = Math.abs(state.flows[pipe]!)
    if (flow < FLOWS_L_PER_MIN) continue
    const { from, to } = network.pipes[pipe]!
    const upstream = state.flows[pipe]! > 0 ? from : to
    sendOf(upstream)
    const { ambientC, lPerMin, volumeL } = rates[pipe]!
    bring(upstream === from ? to : from, {
      flow,
      temperatureC: ambientC + (state.temperatureC[upstream]! - ambientC) * Math.exp(-lPerMin / flow),
      ageMinutes: state.ageMinutes[upstream]! + volumeL / flow,
    })
  }
  for (let node = 0; node < nodes; node++) finish(node)
  return held
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
