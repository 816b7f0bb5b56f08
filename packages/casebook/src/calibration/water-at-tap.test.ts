import { pipeVolume } from '@rillmark/science/pipes/pipe-volume.ts'
import type { Network, NetworkPipe } from '@rillmark/science/network/network.ts'
import { expect, test } from 'vitest'
import type { SimulationRun } from './simulation-run.ts'
import { openTap, runningBuilding, waterAtTap } from './water-at-tap.ts'

interface PipeByHand {
  from: number
  to: number
  lengthM: number
  flowLPerMin: number
  endC: number
  wallHeatJPerMK?: number
  lossWPerMK?: number
}

const BORE_MM = 13
const AIR_C = 20

/** A run set by hand: the water of nodes and pipe ends, alike all day. */
function byHand(nodesC: readonly number[], pipes: readonly PipeByHand[]): SimulationRun {
  const built = pipes.map(
    (pipe, at): NetworkPipe => ({
      id: `p${at}`,
      returning: false,
      boreMm: BORE_MM,
      roughnessMm: 0.01,
      fittingLoss: 0,
      lossAtK: 30,
      lossPower: 0,
      ambientC: AIR_C,
      wallHeatJPerMK: 0,
      lossWPerMK: 0,
      ...pipe,
    }),
  )
  const always = (flow: number) => ({ mean: flow, min: flow, max: flow })
  const series = {
    slots: 1,
    pipes: { temperatureC: Float32Array.from(pipes, ({ endC }) => endC) },
    nodes: { temperatureC: Float32Array.from(nodesC) },
  }
  const nodes = nodesC.map((_, at) => ({ id: `n${at}`, kind: 'junction' }) as const)
  const day = { series, pipes: pipes.map(({ flowLPerMin }) => ({ flowLPerMin: always(flowLPerMin) })) }
  return {
    network: { nodes, pipes: built, outlets: [], valves: [] } as unknown as Network,
    map: { components: new Map(), pipes: new Map() },
    day: day as unknown as SimulationRun['day'],
  }
}

const after = (
  run: SimulationRun,
  { seconds, pipes, flowLPerMin = 6 }: { seconds: number; pipes: number[]; flowLPerMin?: number },
) =>
  waterAtTap(openTap(runningBuilding(run), { quantity: 'temperatureC', flowLPerMin, outletNode: 0, pipes }), {
    seconds,
    slot: 0,
  })

// a standing branch of 10 m behind a main at 55 °C that always runs
const BRANCH: PipeByHand = { from: 1, to: 0, lengthM: 10, flowLPerMin: 0, endC: 24 }
const MAIN: PipeByHand = { from: 2, to: 1, lengthM: 20, flowLPerMin: 3, endC: 55 }
const clearedAfter = (lengthM: number, flowLPerMin: number): number =>
  (pipeVolume({ boreMm: BORE_MM, lengthM }).volumeL / flowLPerMin) * 60

test('[CLB2] what stood in the branch comes first, as long as its volume lasts, then the main', () => {
  const run = byHand([24, 55, 58], [BRANCH, MAIN])
  const cleared = clearedAfter(10, 6)
  expect(after(run, { seconds: 0, pipes: [0, 1] })).toBeCloseTo(24, 6)
  expect(after(run, { seconds: cleared * 0.99, pipes: [0, 1] })).toBeCloseTo(24, 6)
  expect(after(run, { seconds: cleared * 1.001, pipes: [0, 1] })).toBeCloseTo(55, 1)
  // the main is passed at what is drawn and what always runs, from 55 °C at its end to 58 °C where it begins
  const half = cleared + clearedAfter(10, 9)
  expect(after(run, { seconds: half, pipes: [0, 1] })).toBeCloseTo(56.5, 2)
  expect(after(run, { seconds: 1000, pipes: [0, 1] })).toBeCloseTo(58, 6)
})

test('[CLB2] warmth comes later than the water, by the heat of wall and water over that of the water', () => {
  const litresPerM = pipeVolume({ boreMm: BORE_MM, lengthM: 1 }).volumeL
  // a wall that holds as much as the water: 4.14 kJ/(L K) at 50 °C
  const run = byHand([24, 55, 58], [{ ...BRANCH, wallHeatJPerMK: litresPerM * 4135 }, MAIN])
  const cleared = clearedAfter(10, 6)
  expect(after(run, { seconds: cleared * 1.95, pipes: [0, 1] })).toBeCloseTo(24, 6)
  expect(after(run, { seconds: cleared * 2.05, pipes: [0, 1] })).toBeGreaterThan(54)
})

test('[CLB2] water that runs through a pipe loses heat as the closed form says', () => {
  const run = byHand([24, 55, 55], [{ ...BRANCH, lossWPerMK: 0.5 }, MAIN])
  const passesKg = (6 / 60) * 0.988
  const share = Math.exp((-0.5 * 10) / (passesKg * 4180))
  expect(after(run, { seconds: 200, pipes: [0, 1] })).toBeCloseTo(AIR_C + (55 - AIR_C) * share, 2)
})

test('[CLB3] where other water always comes to a junction the tap’s water mixes with it, by their flows', () => {
  // 2 L/min of cold water come to the outlet by a crossing and run up its branch
  const crossed = byHand(
    [14, 50, 58, 14],
    [
      { ...BRANCH, flowLPerMin: -2, endC: 15 },
      { ...MAIN, endC: 56 },
      { from: 3, to: 0, lengthM: 0.1, flowLPerMin: 2, endC: 14 },
    ],
  )
  const mixed = after(crossed, { seconds: 600, pipes: [0, 1] })
  // of 6 L/min, 2 of cold water, 4 from the junction, where 2 that always come (cold) are now drawn back
  expect(mixed).toBeGreaterThan((2 * 14 + 4 * 50) / 6 - 1)
  expect(mixed).toBeLessThan((2 * 14 + 4 * 58) / 6)
  // where more crosses than the tap takes, nothing comes from further up
  expect(after(crossed, { seconds: 600, pipes: [0, 1], flowLPerMin: 1.5 })).toBeCloseTo(14, 6)
})

test('a run without curves is refused', () => {
  const run = byHand([20, 20], [])
  expect(() => runningBuilding({ ...run, day: { ...run.day, series: undefined } })).toThrow(RangeError)
})
