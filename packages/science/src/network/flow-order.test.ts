import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { FlowOrder } from './flow-order.ts'
import type { Network, NetworkNode } from './network.ts'
import { twigsOf } from './twigs.ts'

const NODES = 8
const PIPES = 12
const VESSEL = 3
const end = fc.nat({ max: NODES - 1 })
const flow = fc.constantFrom(-1, 0, 0, 1)
const graph = fc.array(fc.tuple(end, end), { minLength: PIPES, maxLength: PIPES })
const steps = fc.array(fc.array(flow, { minLength: PIPES, maxLength: PIPES }), { minLength: 1, maxLength: 20 })

function networkOf(ends: readonly (readonly [number, number])[]): Network {
  const store: NetworkNode = {
    id: 'store',
    kind: 'vessel',
    volumeL: 100,
    layers: 1,
    heatedFromLayer: 0,
    returnLayer: 0,
    lossWPerK: 0,
    ambientC: 20,
  }
  const nodes = Array.from(
    { length: NODES },
    (_, at): NetworkNode => (at === VESSEL ? store : { id: `${at}`, kind: 'junction' }),
  )
  const pipes = ends.map(([from, to], at) => ({
    id: `${at}`,
    from,
    to,
    returning: false,
    lengthM: 1,
    boreMm: 10,
    roughnessMm: 0,
    fittingLoss: 0,
    lossWPerMK: 0,
    lossAtK: 38,
    lossPower: 0,
    wallHeatJPerMK: 0,
    ambientC: 20,
  }))
  const chemistry = {
    disinfectant: 'none',
    bulkPerHour: 0,
    wallMPerHour: 0,
    referenceC: 20,
    standingSherwood: 2,
  } as const
  return { nodes, pipes, outlets: [], valves: [], chemistry }
}

const orderOf = (network: Network): FlowOrder => new FlowOrder(network, twigsOf(network))

/** By pipe that runs to draws only: 1 where it runs from → to, −1 against. No draw makes it run back. */
const outwardOf = (network: Network): ReadonlyMap<number, 1 | -1> =>
  new Map(twigsOf(network).map(({ pipe, near }) => [pipe, network.pipes[pipe]?.from === near ? 1 : -1]))

/** Pipes that come before one that feeds them, at a node that does not open a round. */
function outOfOrder(order: FlowOrder, { pipes }: Network, flows: Float64Array): string[] {
  const placeOf = new Map([...order.list.pipes].map((pipe, place) => [pipe, place]))
  const runs = [...flows.keys()].filter((pipe) => flows[pipe] !== 0)
  const up = (pipe: number) => ((flows[pipe] ?? 0) > 0 ? pipes[pipe]?.from : pipes[pipe]?.to) ?? -1
  const down = (pipe: number) => ((flows[pipe] ?? 0) > 0 ? pipes[pipe]?.to : pipes[pipe]?.from) ?? -1
  return runs.flatMap((feeder) =>
    runs
      .filter((pipe) => up(pipe) === down(feeder) && order.opened[up(pipe)] === 0)
      .filter((pipe) => (placeOf.get(pipe) ?? 0) < (placeOf.get(feeder) ?? 0))
      .map((pipe) => `${pipe} before ${feeder}`),
  )
}

function runningIn(order: FlowOrder): number[] {
  const found: number[] = []
  for (
    let place = order.list.nextRunning(0);
    place < order.list.pipes.length;
    place = order.list.nextRunning(place + 1)
  )
    found.push(order.list.pipes[place] ?? Number.NaN)
  return found
}

test('whatever turns, every pipe comes after all that feed it, but where a round is opened', () => {
  fc.assert(
    fc.property(graph, steps, (ends, each) => {
      const network = networkOf(ends)
      const order = orderOf(network)
      const outward = outwardOf(network)
      let before = new Float64Array(PIPES)
      for (const step of each) {
        const flows = Float64Array.from(step, (flow, pipe) => (outward.get(pipe) ?? 0) * Math.abs(flow) || flow)
        const changed = Int32Array.from([...flows.keys()].filter((pipe) => flows[pipe] !== before[pipe]))
        order.follow(flows, changed)
        before = flows
        expect(outOfOrder(order, network, flows)).toEqual([])
        expect([...order.list.pipes].toSorted((a, b) => a - b)).toEqual([...network.pipes.keys()])
        expect(runningIn(order)).toEqual([...order.list.pipes].filter((pipe) => flows[pipe] !== 0))
        expect(order.rounds.every((node) => order.opened[node] === 1 && node !== VESSEL)).toBe(true)
      }
    }),
  )
})

test('a round through a vessel is opened there, and one of its own at one node', () => {
  const throughVessel = orderOf(
    networkOf([
      [VESSEL, 0],
      [0, 1],
      [1, VESSEL],
    ]),
  )
  throughVessel.follow(Float64Array.of(1, 1, 1), Int32Array.of(0, 1, 2))
  expect([...throughVessel.opened.keys()].filter((node) => throughVessel.opened[node] === 1)).toEqual([VESSEL])
  expect(throughVessel.rounds).toEqual([])
  const alone = orderOf(
    networkOf([
      [0, 1],
      [1, 2],
      [2, 0],
    ]),
  )
  alone.follow(Float64Array.of(1, 1, 1), Int32Array.of(0, 1, 2))
  expect(alone.rounds).toHaveLength(1)
})
