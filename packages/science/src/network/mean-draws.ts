/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { Network } from './network.ts'
import type { Twig } from './twigs.ts'

const MINUTES_PER_DAY = 1440

/**
 * What is drawn at each node on the mean of the day, L/min; of a mixed draw half from each side.
 *
 * @source none: it sums up what is given
 */
export function meanDraws({ nodes, outlets }: Network): Float64Array {
  const drawn = new Float64Array(nodes.length)
  for (const { hotNode, coldNode, draws } of outlets) {
    const litres = draws.reduce((sum, { minutes, flowLPerMin }) => sum + minutes * flowLPerMin, 0)
    const ports = [hotNode, coldNode].filter((node) => node !== undefined)
    for (const node of ports) drawn[node]! += litres / ports.length / MINUTES_PER_DAY
  }
  return drawn
}

/**
 * The twigs that carry no more than so much on the mean (L/min): the outer ones, each still before the one it hangs on.
 *
 * @source none: it only picks from a list
 */
export function quietTwigs(network: Network, { twigs, lPerMin }: { twigs: readonly Twig[]; lPerMin: number }): Twig[] {
  const beyond = meanDraws(network)
  return twigs.filter(({ node, near }) => {
    beyond[near]! += beyond[node]!
    return beyond[node]! <= lPerMin
  })
}
