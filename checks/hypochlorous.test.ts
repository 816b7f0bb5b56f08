// Acid constant and share of hypochlorous acid.
// Morris 1966, printed table of pKa: memory. Shares: computed from it.
// Two constants in public teaching material, 2.9e-8 at 25 °C and 2.7e-8 at 20 °C: seen. US EPA plant model and Benjamin 2015
// constants: seen; their values at each temperature computed.
import { hypochlorousFraction, morrisPKa } from '@rillmark/science/chlorine/hypochlorous-fraction.ts'
import { expect, test } from 'vitest'

test.each([
  [0, 7.825],
  [5, 7.754],
  [10, 7.69],
  [15, 7.633],
  [20, 7.582],
  [25, 7.537],
  [30, 7.497],
  [35, 7.463],
])('pKa at %d °C', (temperatureC, printed) => {
  expect(Math.abs(morrisPKa(temperatureC) - printed)).toBeLessThan(6e-4)
})

test.each([
  // °C, per cent at pH 6, 6.5, 7, 7.5, 8, 8.5, 9
  [5, [98.27, 94.72, 85.02, 64.23, 36.21, 15.22, 5.37]],
  [10, [98.0, 93.94, 83.05, 60.78, 32.89, 13.42, 4.67]],
  [20, [97.45, 92.35, 79.24, 54.69, 27.63, 10.77, 3.68]],
  [25, [97.18, 91.58, 77.48, 52.11, 25.6, 9.81, 3.33]],
  [30, [96.92, 90.86, 75.86, 49.84, 23.91, 9.04, 3.05]],
  [40, [96.45, 89.58, 73.1, 46.22, 21.37, 7.91, 2.65]],
] as const)('shares at %d °C', (temperatureC, printed) => {
  const shares = printed.map((_, i) => 100 * hypochlorousFraction({ pH: 6 + i / 2, temperatureC }).fractionHocl)
  for (const [i, want] of printed.entries()) expect(Math.abs((shares[i] ?? 0) - want)).toBeLessThan(0.006)
})

test('constants of other sources lie within 0.02 at 20 and 25 °C', () => {
  expect(Math.abs(morrisPKa(25) + Math.log10(2.9e-8))).toBeLessThan(0.02)
  expect(Math.abs(morrisPKa(20) + Math.log10(2.7e-8))).toBeLessThan(0.02)
})

test.each([
  // °C, plant model, Benjamin
  [0, 7.7802, 7.7513],
  [10, 7.687, 7.6581],
  [20, 7.6002, 7.5712],
  [35, 7.4805, 7.4515],
  [60, 7.3049, 7.276],
])('at %d °C the range is that of the lowest and highest constant', (temperatureC, plant, benjamin) => {
  const pKas = [morrisPKa(temperatureC), plant, benjamin]
  const { fractionRange } = hypochlorousFraction({ pH: 7.5, temperatureC })
  const share = (pKa: number) => 1 / (1 + 10 ** (7.5 - pKa))
  expect(fractionRange.lower).toBeCloseTo(share(Math.min(...pKas)), 4)
  expect(fractionRange.upper).toBeCloseTo(share(Math.max(...pKas)), 4)
})
