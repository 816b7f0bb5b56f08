/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { Network } from './network.ts'

/** A node that hangs on the rest by one pipe, beyond which no water comes in. */
export interface Twig {
  node: number
  pipe: number
  /** The node at the pipe's other end, nearer the source. */
  near: number
}

/**
 * The nodes that lie on no way but to draws, each before the one it hangs on: what runs there runs outward, always, and is what is
 * drawn beyond. The ends of a pipe of fixed flow are none.
 * Wanted because only what is left, rings and what lies between sources and vessels, can change its order and needs hydraulics.
 *
 * @source none: it only sorts lists
 */
export function twigsOf(network: Network): Twig[] {
  const { nodes, pipes } = network
  const around = pipesAround(network)
  const left = Int32Array.from(around, (list) => list.length)
  const stays = new Set(network.valves.flatMap(({ hotNode, coldNode }) => [hotNode, coldNode]))
  for (const { from, to, fixedFlowLPerMin } of pipes)
    if (from === to || fixedFlowLPerMin !== undefined) stays.add(from).add(to)
  const isEnd = (node: number): boolean =>
    left[node] === 1 && !stays.has(node) && (nodes[node]!.kind === 'junction' || nodes[node]!.kind === 'heater')
  const isCut = new Uint8Array(pipes.length)
  const found: Twig[] = []
  const ends = [...nodes.keys()].filter(isEnd)
  while (ends.length > 0) {
    const node = ends.pop()!
    const pipe = around[node]!.find((each) => isCut[each] === 0)
    if (pipe === undefined) continue
    isCut[pipe] = 1
    const { from, to } = pipes[pipe]!
    const near = from === node ? to : from
    found.push({ node, pipe, near })
    left[node]!--
    left[near]!--
    if (isEnd(near)) ends.push(near)
  }
  return found
}

/**
 * The pipes at each node; a pipe from a node to itself comes once.
 *
 * @source none: it only sorts lists
 */
export function pipesAround({ nodes, pipes }: Network): number[][] {
  const around: number[][] = nodes.map(() => [])
  for (const [index, { from, to }] of pipes.entries()) {
    around[from]!.push(index)
    if (to !== from) around[to]!.push(index)
  }
  return around
}
