import { expect, test } from 'vitest'
import { assumedTemperaturesC } from './assumed-temperatures.ts'
import type { Network, NetworkNode, NetworkPipe, NetworkValve } from './network.ts'

const pipe = ([from, to]: readonly [number, number], at: number): NetworkPipe => ({
  id: `pipe ${at}`,
  from,
  to,
  returning: false,
  lengthM: 1,
  boreMm: 13,
  roughnessMm: 0.0015,
  fittingLoss: 0,
  lossWPerMK: 0,
  lossAtK: 30,
  lossPower: 0,
  wallHeatJPerMK: 0,
  ambientC: 22,
})
const take = (nodes: NetworkNode[], ends: readonly (readonly [number, number])[], valves: NetworkValve[] = []) => {
  const network: Network = {
    nodes,
    pipes: ends.map(pipe),
    outlets: [],
    valves,
    chemistry: { disinfectant: 'none', bulkPerHour: 0, wallMPerHour: 0, referenceC: 20, standingSherwood: 2 },
  }
  return [...assumedTemperaturesC(network)]
}
const source = (temperatureC: number): NetworkNode => ({
  id: 'source',
  kind: 'source',
  temperatureC,
  residualMgPerL: 0,
})
const heater: NetworkNode = { id: 'heater', kind: 'heater', setpointC: 60 }
const junction: NetworkNode = { id: 'junction', kind: 'junction' }
const mixed: NetworkNode = { id: 'mixed', kind: 'mixed' }

test('water is cold before the heater and hot after it and on its return', () => {
  const ends = [
    [0, 1],
    [1, 2],
    [2, 3],
    [3, 1],
  ] as const
  expect(take([source(12), heater, junction, junction], ends)).toEqual([12, 60, 60, 60])
})

test('water beyond a mixing valve has its set point', () => {
  const valve = { id: 'valve', hotNode: 1, coldNode: 0, mixedNode: 2, setpointC: 41 }
  expect(take([source(10), junction, mixed, junction], [[2, 3]], [valve])).toEqual([41])
})

test('two sources give their mean, water without any the temperature of its air', () => {
  const ends = [
    [0, 1],
    [1, 2],
    [3, 4],
  ] as const
  expect(take([source(10), junction, source(20), junction, junction], ends)).toEqual([15, 15, 22])
})

test('water is held to what is liquid', () => {
  expect(take([source(-5), junction], [[0, 1]])).toEqual([0])
})
