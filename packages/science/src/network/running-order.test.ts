import { expect, test } from 'vitest'
import type { Network } from './network.ts'
import { inRunningOrder } from './running-order.ts'
import { simulateDay } from './simulate.ts'

const pipe = (id: string, from: number, to: number): Network['pipes'][number] => ({
  id,
  from,
  to,
  returning: false,
  lengthM: 10,
  boreMm: 13,
  roughnessMm: 0.0015,
  fittingLoss: 0,
  lossWPerMK: 0.2,
  lossAtK: 30,
  lossPower: 0,
  wallHeatJPerMK: 200,
  ambientC: 22,
})
/** Listed from the taps back to the entry; the draw is at the tap of the second branch and, hardly any, at that of the first. */
const network: Network = {
  nodes: [
    { id: 'tap', kind: 'junction' },
    { id: 'sink', kind: 'junction' },
    { id: 'foot', kind: 'junction' },
    { id: 'entry', kind: 'source', temperatureC: 12, residualMgPerL: 0.5 },
    { id: 'alone', kind: 'junction' },
  ],
  pipes: [pipe('to tap', 2, 0), pipe('to sink', 2, 1), pipe('main', 3, 2), pipe('nowhere', 4, 4)],
  outlets: [
    { id: 'tap', coldNode: 0, draws: [{ startMinute: 100, minutes: 1, flowLPerMin: 3 }] },
    { id: 'sink', coldNode: 1, draws: [{ startMinute: 60, minutes: 700, flowLPerMin: 2 }] },
  ],
  valves: [],
  chemistry: { disinfectant: 'none', bulkPerHour: 0, wallMPerHour: 0, referenceC: 20, standingSherwood: 2 },
}

test('pipes are numbered along the water, mains before branches, and nodes as the pipes come to them', () => {
  const { network: along, pipes, nodes } = inRunningOrder(network)
  expect(along.pipes.map(({ id }) => id)).toEqual(['main', 'to sink', 'nowhere', 'to tap'])
  expect(along.nodes.map(({ id }) => id)).toEqual(['entry', 'foot', 'sink', 'alone', 'tap'])
  expect(along.outlets.map(({ coldNode }) => along.nodes[coldNode ?? 0]?.id)).toEqual(['tap', 'sink'])
  for (const [at, index] of pipes.entries()) expect(along.pipes[at]?.id).toBe(network.pipes[index]?.id)
  for (const [at, { from }] of along.pipes.entries()) expect(nodes[from]).toBe(network.pipes[pipes[at] ?? 0]?.from)
})

test('a day is told by the numbers of the description, curves too', () => {
  const day = simulateDay(network, { slots: 24, mostDays: 3 })
  const flows = day.pipes.map(({ flowLPerMin }) => flowLPerMin.mean * 1440)
  for (const [at, litres] of [3, 1400, 1403, 0].entries()) expect(flows[at]).toBeCloseTo(litres, 6)
  expect(day.nodes.map(({ neverMoves }) => neverMoves)).toEqual([false, false, false, false, true])
  expect(day.nodes[3]?.temperatureC.mean).toBe(12)
  expect(day.series?.pipes.flowLPerMin.slice(24 + 5, 24 + 8)).toEqual(new Float32Array(3).fill(2))
  expect(day.series?.nodes.temperatureC.slice(3 * 24, 4 * 24)).toEqual(new Float32Array(24).fill(12))
})
