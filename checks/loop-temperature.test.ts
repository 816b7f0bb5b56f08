// Three risers on one loop: supply of 3 x 10 m, risers of 20 m, return risers of 20 m, collector of 3 x 10 m, 0.20 W/(m K)
// everywhere, heater 60 °C, air 25 °C. Flows by an independent Newton solution and an independent network engine;
// temperatures computed with 983.2 kg/m³ and 4182.8 J/(kg K). Known by: computed.
// A loop of two sections of an installer's short method: 30 m at 11 W/m and 60 m at 7 W/m (memory); flow computed.
import { loopTemperature } from '@rillmark/science/heat/loop-temperature.ts'
import { expect, test } from 'vitest'

const S_PER_MIN = 60

function threeRisers(flows: [number, number, number]) {
  const [q1, q2, q3] = flows.map((each) => each * S_PER_MIN) as [number, number, number]
  const pipe = (name: string, lengthM: number, rest: { flowLPerMin: number; after?: string[] }) => ({
    name,
    lengthM,
    lossWPerMK: 0.2,
    ...rest,
  })
  return loopTemperature({
    segments: [
      pipe('PA', 10, { flowLPerMin: q1 + q2 + q3 }),
      pipe('AB', 10, { flowLPerMin: q2 + q3, after: ['PA'] }),
      pipe('BC', 10, { flowLPerMin: q3, after: ['AB'] }),
      pipe('riser 1', 20, { flowLPerMin: q1, after: ['PA'] }),
      pipe('riser 2', 20, { flowLPerMin: q2, after: ['AB'] }),
      pipe('riser 3', 20, { flowLPerMin: q3, after: ['BC'] }),
      pipe('return 1', 20, { flowLPerMin: q1, after: ['riser 1'] }),
      pipe('return 2', 20, { flowLPerMin: q2, after: ['riser 2'] }),
      pipe('return 3', 20, { flowLPerMin: q3, after: ['riser 3'] }),
      pipe('CB', 10, { flowLPerMin: q3, after: ['return 3'] }),
      pipe('BA', 10, { flowLPerMin: q2 + q3, after: ['CB', 'return 2'] }),
      pipe('AS', 10, { flowLPerMin: q1 + q2 + q3, after: ['BA', 'return 1'] }),
    ],
    flowLPerMin: q1 + q2 + q3,
    startC: 60,
    ambientC: 25,
  })
}

test.each([
  ['unbalanced', [0.04259, 0.03542, 0.0284], [59.054, 58.639, 57.845], [58.285, 57.728, 56.739], 57.25, 1203.7],
  ['balanced', [0.0318, 0.0318, 0.0318], [58.773, 58.516, 58.007], [57.756, 57.506, 57.013], 56.937, 1201.6],
] as const)('three risers, %s', (_, flows, tops, feet, returnC, heatW) => {
  const got = threeRisers([...flows])
  const end = Object.fromEntries(got.segments.map((each) => [each.name, each.endC]))
  // Flows are printed to four digits and the heat capacity taken as one: 0.005 K, 0.1 %.
  for (const [at, want] of tops.entries()) expect(Math.abs((end[`riser ${at + 1}`] ?? 0) - want)).toBeLessThan(0.005)
  for (const [at, want] of feet.entries()) expect(Math.abs((end[`return ${at + 1}`] ?? 0) - want)).toBeLessThan(0.005)
  expect(Math.abs(got.returnC - returnC)).toBeLessThan(0.005)
  expect(Math.abs(got.heatW / heatW - 1)).toBeLessThan(0.001)
  expect(got.heatW).toBeCloseTo(
    got.segments.reduce((sum, each) => sum + each.heatW, 0),
    9,
  )
})

test('a loop that loses 750 W keeps within 2 K with 328 L/h and within 5 K with 131 L/h', () => {
  const drop = (litresPerHour: number) =>
    loopTemperature({
      // 11 and 7 W/m at a difference of 40 K
      segments: [
        { lengthM: 30, lossWPerMK: 11 / 40 },
        { lengthM: 60, lossWPerMK: 7 / 40 },
      ],
      flowLPerMin: litresPerHour / 60,
      startC: 60,
      ambientC: 20,
    }).dropK
  // The method takes the loss as the same all along; it falls by up to a sixteenth as the water cools.
  expect(drop(328)).toBeLessThan(2)
  expect(drop(328)).toBeGreaterThan(1.93)
  expect(drop(131)).toBeLessThan(5)
  expect(drop(131)).toBeGreaterThan(4.6)
})

test('return pipe included: 1300 ft losing 18 000 Btu/h at 3.6 gpm drops 10 °F', () => {
  // A sizing question in print (data seen, answer computed): 1000 ft at 15 and 300 ft at 10 Btu/h/ft.
  const wattsPerM = 0.96152
  const length = 0.3048
  const { dropK } = loopTemperature({
    segments: [
      { lengthM: 1000 * length, lossWPerMK: (15 * wattsPerM) / 40 },
      { lengthM: 300 * length, lossWPerMK: (10 * wattsPerM) / 40 },
    ],
    flowLPerMin: 3.6 * 3.785411784,
    startC: 60,
    ambientC: 20,
  })
  // 500 Btu/h per gpm and °F is rounded, at cold-water density; the loss falls as the water cools: 8 %.
  expect(Math.abs(dropK / (10 / 1.8) - 1)).toBeLessThan(0.08)
})
