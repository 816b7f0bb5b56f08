import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { makeFlowField } from './make-flow-field.ts'
import type { Network, NetworkPipe } from './network.ts'
import { TwigFlows } from './twig-flows.ts'
import { twigsOf } from './twigs.ts'

const NODES = 12
const pipe = (ends: { from: number; to: number }, id: number): NetworkPipe => ({
  ...ends,
  id: `${id}`,
  returning: false,
  lengthM: 2,
  boreMm: 15,
  roughnessMm: 0.0015,
  fittingLoss: 0,
  lossWPerMK: 0.25,
  lossAtK: 38,
  lossPower: 0,
  wallHeatJPerMK: 0,
  ambientC: 20,
})

/** A source, a ring of three, and each further node on one before it, its pipe described from either end. */
const networks = fc
  .array(fc.tuple(fc.nat(), fc.boolean()), { minLength: NODES - 4, maxLength: NODES - 4 })
  .map((hangs): Network => {
    const main = [
      { from: 0, to: 1 },
      { from: 1, to: 2 },
      { from: 2, to: 3 },
      { from: 3, to: 1 },
    ]
    const twigs = hangs.map(([on, turned], at) => {
      const [node, near] = [at + 4, on % (at + 4)]
      return turned ? { from: node, to: near } : { from: near, to: node }
    })
    return {
      nodes: Array.from({ length: NODES }, (_, node) =>
        node === 0
          ? { id: 'source', kind: 'source', temperatureC: 10, residualMgPerL: 0 }
          : { id: `${node}`, kind: 'junction' },
      ),
      pipes: [...main, ...twigs].map(pipe),
      outlets: [],
      valves: [],
      chemistry: { disinfectant: 'none', bulkPerHour: 0, wallMPerHour: 0, referenceC: 20, standingSherwood: 2 },
    }
  })
const demands = fc.array(fc.tuple(fc.nat({ max: NODES - 1 }), fc.double({ min: 0, max: 20, noNaN: true })), {
  maxLength: 30,
})

test('flows of twigs are to the last digit those that the hydraulics find, whatever was drawn before', () => {
  fc.assert(
    fc.property(networks, demands, (network, drawn) => {
      const twigs = twigsOf(network)
      const ours = new TwigFlows(network, twigs)
      const field = makeFlowField(network)
      for (const [node, lPerMin] of drawn) {
        ours.setDemand(node, lPerMin)
        field.setDemand(node, lPerMin)
      }
      field.settle()
      const places = twigs.map((twig) => twig.pipe)
      expect(places.map((each) => ours.flows[each])).toEqual(places.map((each) => field.flows[each]))
      const running = [...ours.list.pipes].filter((_, place) => ours.list.nextRunning(place) === place)
      expect(running).toEqual([...ours.list.pipes].filter((each) => ours.flows[each] !== 0))
    }),
    { seed: 20261130, numRuns: 300 },
  )
})

test('a twig comes after the one it hangs on, and knows the node of the mains where its water leaves them', () => {
  fc.assert(
    fc.property(networks, (network) => {
      const twigs = twigsOf(network)
      const { list, root, near, feeder } = new TwigFlows(network, twigs)
      const placeOf = new Map([...list.pipes].map((each, place) => [each, place]))
      for (const { node, pipe: own } of twigs) {
        const above = placeOf.get(feeder[near[node] ?? 0] ?? -1) ?? -1
        expect(above).toBeLessThan(placeOf.get(own) ?? -1)
        expect(root[node]).toBe(root[near[node] ?? 0])
        expect(twigs.some((twig) => twig.node === root[node])).toBe(false)
      }
    }),
    { seed: 20261130, numRuns: 200 },
  )
})

test('what changed is told once and then forgotten', () => {
  const network = fc.sample(networks, { seed: 1, numRuns: 1 })[0]
  if (network === undefined) throw new TypeError('Cannot test because there is no network')
  const twigs = new TwigFlows(network, twigsOf(network))
  const tap = NODES - 1
  twigs.setDemand(tap, 3)
  twigs.setDemand(tap, 4)
  expect(new Set(twigs.takeChanged()).size).toBeGreaterThan(0)
  expect(twigs.takeChanged()).toHaveLength(0)
  twigs.setDemand(tap, 4)
  expect(twigs.takeChanged()).toHaveLength(0)
})
