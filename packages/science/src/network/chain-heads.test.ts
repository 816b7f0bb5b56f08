import { expect, test } from 'vitest'
import { ChainHeads } from './chain-heads.ts'
import { type Chains, chainsOf } from './chains.ts'
import type { Network, NetworkPipe } from './network.ts'
import { pipeLosses } from './pipe-losses.ts'

/** Two ways from the top (place 0) to place 3: by places 1 and 2, and straight. */
function ring(words: Partial<NetworkPipe> = {}): { chains: Chains; heads: ChainHeads; drawn: Float64Array } {
  const pipe = (from: number, to: number): NetworkPipe => ({
    id: `${from}-${to}`,
    from,
    to,
    returning: false,
    lengthM: 5,
    boreMm: 20,
    roughnessMm: 0.0015,
    fittingLoss: 2,
    lossWPerMK: 0.25,
    lossAtK: 38,
    lossPower: 0.1,
    wallHeatJPerMK: 250,
    ambientC: 20,
  })
  const network: Network = {
    nodes: ['0', '1', '2', '3'].map((id) =>
      id === '0' ? { id, kind: 'source', temperatureC: 15, residualMgPerL: 0 } : { id, kind: 'junction' },
    ),
    pipes: [pipe(0, 1), { ...pipe(1, 2), ...words }, pipe(2, 3), pipe(0, 3), pipe(3, 0)],
    outlets: [],
    valves: [],
    chemistry: { disinfectant: 'none', bulkPerHour: 0, wallMPerHour: 0, referenceC: 20, standingSherwood: 2 },
  }
  const [from, to] = [network.pipes.map((each) => each.from), network.pipes.map((each) => each.to)]
  const chains = chainsOf({
    pipes: Int32Array.from(network.pipes.keys()),
    from: Int32Array.from(from),
    to: Int32Array.from(to),
    top: 0,
  })
  const drawn = new Float64Array(network.nodes.length)
  return { chains, heads: new ChainHeads({ chains, losses: pipeLosses(network), drawn }), drawn }
}

/** The chain of three pipes. */
const longOf = ({ from, start }: Chains): number =>
  from.findIndex((_, chain) => (start[chain + 1] ?? 0) - (start[chain] ?? 0) === 3)

test('heads are the sum along a chain, grow by their slope, and have the sign of the flow', () => {
  const { chains, heads } = ring()
  const long = longOf(chains)
  const one = chains.from.findIndex((_, chain) => chain !== long)
  const at = (flow: number): { head: number; single: number; slope: number } => {
    heads.evaluate(new Float64Array(chains.from.length).fill(flow))
    return { head: heads.head[long] ?? 0, single: heads.head[one] ?? 0, slope: heads.slope[long] ?? 0 }
  }
  for (const flow of [0.5, 8, 30]) {
    const here = at(flow)
    expect(here.head).toBeCloseTo(3 * here.single, 12)
    expect(at(-flow).head).toBeCloseTo(-here.head, 12)
    const step = 1e-4 * flow
    expect((at(flow + step).head - at(flow - step).head) / (2 * step)).toBeCloseTo(here.slope, 6)
  }
})

test('what is drawn within a chain lessens what flows behind it', () => {
  const { chains, heads, drawn } = ring()
  const long = longOf(chains)
  const inflow = new Float64Array(chains.from.length).fill(6)
  expect(heads.drain()).toBe(true)
  heads.evaluate(inflow)
  const before = heads.head[long] ?? 0
  drawn[2] = 6
  expect(heads.drain()).toBe(false)
  heads.evaluate(inflow)
  expect(heads.within[long]).toBe(-6)
  // of the three pipes one is left at rest
  const runs = chains.from[long] === 0 ? 2 / 3 : 1 / 3
  expect(heads.head[long]).toBeCloseTo(before * runs, 12)
})

test('a check valve against the flow holds any head, is noted as shut, and lets nothing through', () => {
  const { chains, heads } = ring({ oneWay: true })
  const long = longOf(chains)
  const way = chains.from[long] === 0 ? 1 : -1
  expect([heads.valved, heads.pumped]).toEqual([true, false])
  const flows = (flow: number): Float64Array => new Float64Array(chains.from.length).fill(way * flow)
  expect(heads.turnValves(flows(5))).toBe(false)
  expect(heads.turnValves(flows(-5))).toBe(true)
  expect(heads.turnValves(flows(-5))).toBe(false)
  heads.evaluate(flows(-1e-6))
  expect(Math.abs(heads.head[long] ?? 0)).toBeGreaterThan(90)
  expect(Math.abs(heads.stopped(long, -5 * way))).toBe(0)
  expect(heads.stopped(long, 5 * way)).toBe(5 * way)
})
