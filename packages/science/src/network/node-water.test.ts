import { expect, test } from 'vitest'
import type { Network } from './network.ts'
import { simulateDay } from './simulate.ts'

const pipe = (id: string, from: number, to: number): Network['pipes'][number] => ({
  id,
  from,
  to,
  returning: false,
  lengthM: 20,
  boreMm: 20,
  roughnessMm: 0.0015,
  fittingLoss: 1,
  lossWPerMK: 0.2,
  lossAtK: 30,
  lossPower: 0,
  wallHeatJPerMK: 200,
  ambientC: 22,
})

test('a source to which water is pumped back goes on sending its own', () => {
  const pump = { shutOffHeadM: 2, headDropMPerLPerMin2: 0.01 }
  const network: Network = {
    nodes: [
      { id: 'source', kind: 'source', temperatureC: 60, residualMgPerL: 0.3 },
      { id: 'tap', kind: 'junction' },
    ],
    pipes: [{ ...pipe('out', 0, 1), pump }, pipe('back', 1, 0)],
    outlets: [{ id: 'tap', coldNode: 1, draws: [{ startMinute: 0, minutes: 1440, flowLPerMin: 1 }] }],
    valves: [],
    chemistry: { disinfectant: 'none', bulkPerHour: 0, wallMPerHour: 0, referenceC: 20, standingSherwood: 2 },
  }
  const day = simulateDay(network)
  const flow = day.pipes[0]?.flowLPerMin.mean ?? 0
  expect(flow).toBeGreaterThan(1)
  const litres = (Math.PI / 4) * 0.02 ** 2 * 20 * 1000
  expect((day.outlets[0]?.ageHours.mean ?? 0) * 60).toBeCloseTo(litres / flow, 3)
})
