import type { Chains } from './chains.ts'

/** A tree over the knots of a block, from knot 0, and the chains outside it, one for each ring. */
export interface KnotTree {
  /** Chains of the tree, each after the one that its nearer knot hangs on, and the knot each of them adds. */
  chain: Int32Array
  child: Int32Array
  rest: Int32Array
}

/**
 * Picks the chains of least resistance that join all knots (Kruskal), so that what is left to find is small and steady.
 *
 * @param input chains, a weight for each (taken from the lightest), and those to be taken last
 * @source common-practice
 */
export function knotTree({
  chains,
  weight,
  last,
}: {
  chains: Chains
  weight: Float64Array
  last: Uint8Array
}): KnotTree {
  const knots = chains.knots.length
  const by = (chain: number) => weight[chain] as number
  const order = Array.from(chains.from.keys()).sort(
    (a, b) => (last[a] as number) - (last[b] as number) || by(a) - by(b) || a - b,
  )
  const group = Int32Array.from({ length: knots }, (_, knot) => knot)
  const near: number[][] = Array.from({ length: knots }, () => [])
  const rest: number[] = []
  for (const chain of order) {
    const [a, b] = [chains.from[chain] as number, chains.to[chain] as number]
    const [first, second] = [groupOf(group, a), groupOf(group, b)]
    if (first === second) rest.push(chain)
    else {
      group[first] = second
      near[a]?.push(chain)
      near[b]?.push(chain)
    }
  }
  return { ...outward(chains, near), rest: Int32Array.from(rest) }
}

function groupOf(group: Int32Array, knot: number): number {
  let here = knot
  while (group[here] !== here) {
    group[here] = group[group[here] as number] as number
    here = group[here] as number
  }
  return here
}

function outward(chains: Chains, near: readonly (readonly number[])[]) {
  const chain = new Int32Array(near.length - 1)
  const child = new Int32Array(near.length - 1)
  const seen = new Uint8Array(near.length)
  const front = [0]
  seen[0] = 1
  let count = 0
  for (const knot of front) {
    for (const each of near[knot] ?? []) {
      const a = chains.from[each] as number
      const other = a === knot ? (chains.to[each] as number) : a
      if (seen[other] === 1) continue
      seen[other] = 1
      front.push(other)
      chain[count] = each
      child[count] = other
      count += 1
    }
  }
  return { chain, child }
}
