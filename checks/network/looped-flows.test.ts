// Flows of looped networks against the EPANET engine (open source, through epanet-js), Darcy and Weisbach's friction.
import { makeFlowField } from '@rillmark/science/network/make-flow-field.ts'
import type { Network } from '@rillmark/science/network/network.ts'
import { describe, expect, test } from 'vitest'
import { runEngine } from './engine.ts'
import { demandsOf } from './engine-text.ts'
import { randomNetwork } from './random-networks.ts'

/** The engine's text takes water of 20 °C. */
const TEMPERATURE_C = 20
/** Each flow within 0.5 % of itself; the second share, of the largest flow, is for pipes in which next to nothing flows. */
const SHARE = 0.005
const OF_LARGEST = 5e-5

const CASES = [
  ...Array.from({ length: 12 }, (_, at) => ({ seed: at + 1, pipes: 20 + 15 * at, loops: 1 + 2 * at, times: 1 })),
  ...Array.from({ length: 12 }, (_, at) => ({ seed: at + 101, pipes: 20 + 15 * at, loops: 1 + 2 * at, times: 12 })),
  { seed: 201, pipes: 60, loops: 8, times: 60 },
  { seed: 202, pipes: 300, loops: 60, times: 20 },
]

function drawn(network: Network, times: number): Network {
  return {
    ...network,
    outlets: network.outlets.map((outlet) => ({
      ...outlet,
      draws: outlet.draws.map((draw) => ({ ...draw, flowLPerMin: draw.flowLPerMin * times })),
    })),
  }
}

function ours(network: Network): Float64Array {
  const field = makeFlowField(network, { temperatureC: TEMPERATURE_C })
  for (const [node, [flow = 0]] of demandsOf(network, 1440).entries()) field.setDemand(node, flow)
  field.settle()
  return field.flows
}

function theirs(network: Network): Float64Array {
  const times = { spans: 1, spanMinutes: 60, stepMinutes: 60, qualityStepS: 300 }
  return runEngine(network, { ...times, constituents: [], ambientC: 20, readEvery: 1 }).flows
}

const largest = (flows: Float64Array) => flows.reduce((most, flow) => Math.max(most, Math.abs(flow)), 0)

function tooFar(network: Network) {
  const [mine, engine] = [ours(network), theirs(network)]
  const room = OF_LARGEST * largest(engine)
  return network.pipes.flatMap(({ id }, at) => {
    const [got, want] = [mine[at] as number, engine[at] as number]
    return Math.abs(got - want) <= SHARE * Math.abs(want) + room ? [] : [{ id, got, want }]
  })
}

describe('computed: EPANET 2.3.5 on random networks', () => {
  test.each(CASES)('$pipes pipes, $loops rings, draws times $times', ({ times, ...wish }) => {
    expect(tooFar(drawn(randomNetwork(wish), times))).toEqual([])
  })

  test.each([301, 302, 303, 304])('two sources, seed %i', (seed) => {
    expect(tooFar(drawn(randomNetwork({ seed, pipes: 50, loops: 6, twoSources: true }), 10))).toEqual([])
  })

  test.each([401, 402, 403, 404])('check valves in the rings, seed %i', (seed) => {
    const network = drawn(randomNetwork({ seed, pipes: 60, loops: 9 }), 10)
    const pipes = network.pipes.map((pipe, at) => (at >= network.pipes.length - 9 ? { ...pipe, oneWay: true } : pipe))
    const valved = { ...network, pipes }
    const shut = ours(valved).filter((flow, at) => pipes[at]?.oneWay === true && flow === 0).length
    expect(shut).toBeGreaterThan(0)
    expect(tooFar(valved)).toEqual([])
  })
})
