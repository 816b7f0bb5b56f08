/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { SimulatedDay } from './day-result.ts'
import type { Network } from './network.ts'
import { meanDraws } from './mean-draws.ts'
import { pipesAround, twigsOf } from './twigs.ts'
import { downstreamFirst } from './valve-order.ts'

/** What carries more than this on the mean (L/min) is a main: water runs there in many minutes of the day. */
const MAIN_L_PER_MIN = 0.1

/** A network renumbered, and the number that each of its nodes and pipes had before. */
export interface Renumbered {
  network: Network
  nodes: Int32Array
  pipes: Int32Array
}

/**
 * The network with its nodes and pipes numbered along the ways of the water: first what runs most of the day (rings, mains), then
 * the branches. Its valves come downstream first.
 * Wanted because what moves every minute then lies close together in memory, whatever the order of the description.
 *
 * @source none: it only sorts lists
 */
export function inRunningOrder(network: Network): Renumbered {
  const pipes = runningFirst(network)
  const nodes = nodesAlong(network, pipes)
  const place = new Int32Array(nodes.length)
  for (const [at, node] of nodes.entries()) place[node] = at
  const placed = (node: number | undefined): number | undefined => (node === undefined ? undefined : place[node]!)
  const renumbered: Network = {
    ...network,
    nodes: Array.from(nodes, (node) => network.nodes[node]!),
    pipes: Array.from(pipes, (index) => {
      const pipe = network.pipes[index]!
      return { ...pipe, from: place[pipe.from]!, to: place[pipe.to]! }
    }),
    outlets: network.outlets.map((outlet) => ({
      ...outlet,
      hotNode: placed(outlet.hotNode),
      coldNode: placed(outlet.coldNode),
    })),
    valves: downstreamFirst(network).map((valve) => ({
      ...valve,
      hotNode: place[valve.hotNode]!,
      coldNode: place[valve.coldNode]!,
      mixedNode: place[valve.mixedNode]!,
    })),
  }
  return { network: renumbered, nodes, pipes }
}

/**
 * A day of the renumbered network by the numbers from before.
 *
 * @source none: it only sorts lists
 */
export function asNumberedBefore(day: SimulatedDay, { nodes, pipes }: Renumbered): SimulatedDay {
  const sorted = { ...day, nodes: putBack(day.nodes, nodes), pipes: putBack(day.pipes, pipes) }
  if (day.series === undefined) return sorted
  const { slots } = day.series
  const rows = <Curves extends Record<string, Float32Array>>(curves: Curves, before: Int32Array): Curves =>
    Object.fromEntries(
      Object.entries(curves).map(([name, curve]) => [name, rowsBack(curve, { before, slots })]),
    ) as Curves
  return { ...sorted, series: { slots, pipes: rows(day.series.pipes, pipes), nodes: rows(day.series.nodes, nodes) } }
}

function putBack<Item>(items: readonly Item[], before: Int32Array): Item[] {
  const back = items.slice()
  for (const [at, index] of before.entries()) back[index] = items[at]!
  return back
}

function rowsBack(rows: Float32Array, { before, slots }: { before: Int32Array; slots: number }): Float32Array {
  const back = new Float32Array(rows.length)
  for (const [at, index] of before.entries()) back.set(rows.subarray(at * slots, (at + 1) * slots), index * slots)
  return back
}

function runningFirst(network: Network): Int32Array {
  const around = pipesAround(network)
  const isMain = mainsOf(network)
  const along = pipesAlong(network, around)
  return Int32Array.from([...along.filter((pipe) => isMain[pipe] === 1), ...along.filter((pipe) => isMain[pipe] === 0)])
}

const farEnd = ({ pipes }: Network, pipe: number, near: number): number => {
  const { from, to } = pipes[pipe]!
  return from === near ? to : from
}

/** Pipes in the order in which one comes to them who goes from the sources, and at each parting up one way to its end. */
function pipesAlong(network: Network, around: readonly number[][]): number[] {
  const { nodes, valves } = network
  const below = new Map(
    valves.flatMap(({ hotNode, coldNode, mixedNode }) => [hotNode, coldNode].map((port) => [port, mixedNode] as const)),
  )
  const isListed = new Uint8Array(network.pipes.length)
  const isSeen = new Uint8Array(nodes.length)
  const found: number[] = []
  const sources = [...nodes.keys()].filter((node) => nodes[node]!.kind === 'source')
  for (const start of [...sources, ...nodes.keys()]) {
    const stack = [start]
    while (stack.length > 0) {
      const node = stack.pop()!
      if (isSeen[node] === 1) continue
      isSeen[node] = 1
      for (const pipe of around[node]!) {
        if (isListed[pipe] === 1) continue
        isListed[pipe] = 1
        found.push(pipe)
        stack.push(farEnd(network, pipe, node))
      }
      const mixed = below.get(node)
      if (mixed !== undefined) stack.push(mixed)
    }
  }
  return found
}

/** 1 for pipes on rings or between them, sources and vessels, and for branches that carry much. */
function mainsOf(network: Network): Uint8Array {
  const isMain = new Uint8Array(network.pipes.length).fill(1)
  const beyond = meanDraws(network)
  for (const { node, pipe, near } of twigsOf(network)) {
    isMain[pipe] = beyond[node]! > MAIN_L_PER_MIN ? 1 : 0
    beyond[near]! += beyond[node]!
  }
  return isMain
}

/** Nodes in the order in which the pipes come to them; those without pipes last. */
function nodesAlong({ nodes, pipes }: Network, order: Int32Array): Int32Array {
  const found = new Set<number>()
  for (const index of order) found.add(pipes[index]!.from).add(pipes[index]!.to)
  for (const node of nodes.keys()) found.add(node)
  return Int32Array.from(found)
}
