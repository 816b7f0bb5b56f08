import { liquidWaterRangeC } from '../water/liquid-water.ts'
import type { Network } from './network.ts'

/**
 * Temperature of the water in each pipe (°C) as the hydraulics take it, by pipe.
 * Wanted because hot water is a third as viscous as cold: loops share it out otherwise.
 *
 * Heaters and heated vessels part the pipes into groups. A group has the mean temperature of its sources; without one the mean
 * set point of its mixing valves; without one the highest set point it touches; without one the mean temperature of its air.
 *
 * Special cases: held to the range in which water is liquid.
 *
 * @param network its temperatures are those given, not those that come out
 * @source common-practice
 */
export function assumedTemperaturesC(network: Network): Float64Array {
  const groups = groupPipes(network)
  const temperatureC = Float64Array.from(temperaturesOf(network, groups), heldToLiquid)
  return Float64Array.from(network.pipes, (_, pipe) => temperatureC[groups.ofPipe[pipe] as number] as number)
}

interface Groups {
  count: number
  ofPipe: Int32Array
  ofNode: Int32Array
}

function setpointOf(node: Network['nodes'][number]): number | undefined {
  return node.kind === 'heater' || node.kind === 'vessel' ? node.setpointC : undefined
}

/** Pipes joined through nodes that do not heat; −1 for such nodes. */
function groupPipes({ nodes, pipes }: Network): Groups {
  const heats = nodes.map((node) => setpointOf(node) !== undefined)
  const parent = Int32Array.from({ length: nodes.length + pipes.length }, (_, at) => at)
  const rootOf = (of: number) => {
    let here = of
    while (parent[here] !== here) {
      parent[here] = parent[parent[here] as number] as number
      here = parent[here] as number
    }
    return here
  }
  pipes.forEach(({ from, to }, pipe) => {
    if (heats[from] !== true) parent[rootOf(from)] = rootOf(nodes.length + pipe)
    if (heats[to] !== true) parent[rootOf(to)] = rootOf(nodes.length + pipe)
  })
  const numbers = new Int32Array(parent.length).fill(-1)
  let count = 0
  const groupOf = (of: number): number => {
    const root = rootOf(of)
    if (numbers[root] === -1) numbers[root] = count++
    return numbers[root] as number
  }
  const ofPipe = Int32Array.from(pipes, (_, pipe) => groupOf(nodes.length + pipe))
  const ofNode = Int32Array.from(nodes, (_, node) => (heats[node] === true ? -1 : groupOf(node)))
  return { count, ofPipe, ofNode }
}

function temperaturesOf({ nodes, pipes, valves }: Network, groups: Groups): Float64Array {
  const means = () => ({ sum: new Float64Array(groups.count), count: new Float64Array(groups.count) })
  const [sources, mixed, air] = [means(), means(), means()]
  const add = (to: ReturnType<typeof means>, { group, value }: { group: number; value: number }) => {
    to.sum[group] = (to.sum[group] as number) + value
    to.count[group] = (to.count[group] as number) + 1
  }
  const hottest = new Float64Array(groups.count).fill(Number.NaN)
  nodes.forEach((node, at) => {
    if (node.kind === 'source') add(sources, { group: groups.ofNode[at] as number, value: node.temperatureC })
  })
  for (const { mixedNode, setpointC } of valves) {
    const group = groups.ofNode[mixedNode] ?? -1
    if (group >= 0) add(mixed, { group, value: setpointC })
  }
  pipes.forEach(({ from, to, ambientC }, pipe) => {
    const group = groups.ofPipe[pipe] as number
    add(air, { group, value: ambientC })
    for (const end of [from, to]) {
      const setpointC = setpointOf(nodes[end] as Network['nodes'][number])
      if (setpointC !== undefined) hottest[group] = Math.max(hottest[group] || setpointC, setpointC)
    }
  })
  return hottest.map((hotC, group) => {
    const mean = [sources, mixed].find(({ count }) => (count[group] as number) > 0)
    if (mean !== undefined) return (mean.sum[group] as number) / (mean.count[group] as number)
    return Number.isNaN(hotC) ? (air.sum[group] as number) / Math.max(air.count[group] as number, 1) : hotC
  })
}

function heldToLiquid(temperatureC: number): number {
  return Math.min(Math.max(temperatureC, liquidWaterRangeC.lower), liquidWaterRangeC.upper)
}
