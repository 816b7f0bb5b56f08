/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { Network, NetworkValve } from './network.ts'
import { pipesAround } from './twigs.ts'

const NONE = -1

/**
 * The valves of a network, each after those that take from the water it sends out.
 * Wanted because what a valve takes from its ports is known once all is known that is drawn beyond it.
 *
 * Special cases: valves that feed one another in a round keep the order in which they are listed.
 *
 * @source none: it only sorts lists
 */
export function downstreamFirst(network: Network): NetworkValve[] {
  const { valves } = network
  if (valves.length < 2) return [...valves]
  const bodies = bodiesOf(network)
  const fed = new Map<number, NetworkValve[]>()
  for (const valve of valves)
    for (const port of [valve.hotNode, valve.coldNode]) {
      const body = bodies[port]!
      if (body !== NONE) fed.set(body, [...(fed.get(body) ?? []), valve])
    }
  const found = new Set<NetworkValve>()
  const seen = new Set<NetworkValve>()
  const visit = (valve: NetworkValve): void => {
    if (seen.has(valve)) return
    seen.add(valve)
    for (const below of fed.get(bodies[valve.mixedNode]!) ?? []) visit(below)
    found.add(valve)
  }
  for (const valve of valves) visit(valve)
  return [...found]
}

/** By node: a number that the nodes share which pipes join without passing a source; NONE at sources. */
function bodiesOf(network: Network): Int32Array {
  const { nodes, pipes } = network
  const around = pipesAround(network)
  const body = new Int32Array(nodes.length).fill(NONE)
  const isOpen = (node: number): boolean => body[node] === NONE && nodes[node]!.kind !== 'source'
  for (const start of nodes.keys()) {
    const stack = isOpen(start) ? [start] : []
    while (stack.length > 0) {
      const node = stack.pop()!
      if (!isOpen(node)) continue
      body[node] = start
      for (const pipe of around[node]!) stack.push(pipes[pipe]!.from, pipes[pipe]!.to)
    }
  }
  return body
}
