import { expect, test } from 'vitest'
import type { Network, NetworkPipe } from './network.ts'
import { simulateDay } from './simulate.ts'

const pipe: NetworkPipe = {
  id: 'long',
  from: 0,
  to: 1,
  returning: false,
  lengthM: 40,
  boreMm: 20,
  roughnessMm: 0.0015,
  fittingLoss: 0,
  lossWPerMK: 0.3,
  lossAtK: 40,
  lossPower: 0,
  wallHeatJPerMK: 0,
  ambientC: 24,
}

/** A branch of 12.6 L from which a little is drawn twice a day. */
const drawing = (litresADay: number): Network => ({
  nodes: [
    { id: 'entry', kind: 'source', temperatureC: 12, residualMgPerL: 0.8 },
    { id: 'tap', kind: 'junction' },
  ],
  pipes: [pipe],
  outlets: [
    {
      id: 'tap',
      coldNode: 1,
      draws: [
        { startMinute: 400, minutes: 1, flowLPerMin: litresADay / 2 },
        { startMinute: 1100, minutes: 1, flowLPerMin: litresADay / 2 },
      ],
    },
  ],
  valves: [],
  chemistry: {
    disinfectant: 'free-chlorine',
    bulkPerHour: 0.01,
    wallMPerHour: 0,
    referenceC: 20,
    standingSherwood: 3.65,
  },
})

const volumeL = (Math.PI / 4) * 0.02 ** 2 * 40 * 1000

test.each([2.1, 0.9])(
  'water that takes days through a branch repeats soon, as old as V/Q says: %s L a day',
  (litresADay) => {
    const { pipes, repeats, daysUntilRepeating, balance } = simulateDay(drawing(litresADay))
    expect(repeats).toBe(true)
    expect(daysUntilRepeating).toBeLessThan(12)
    // what leaves is V/Q old, plus on the mean the half of the spell between two draws
    const hours = (24 * volumeL) / litresADay
    const age = pipes[0]?.end.ageHours.mean ?? 0
    expect(age).toBeGreaterThan(hours - 12)
    expect(age).toBeLessThan(hours + 12)
    expect(balance.energyErrorFraction).toBeLessThan(1e-3)
  },
)

test('water that takes longer than is told is as old as is told', () => {
  expect(simulateDay(drawing(0.1)).pipes[0]?.end.ageHours.mean).toBeCloseTo(720, 6)
})
