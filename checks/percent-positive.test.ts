// What the common "30 % of distal sites" criterion can tell from few sites: exact 95 % limits, as printed to a tenth
// of a per cent. Known by: computed.
import { proportion } from '@rillmark/science/proportions/proportion.ts'
import { expect, test } from 'vitest'

test.each([
  [3, 10, 6.7, 65.2],
  [6, 20, 11.9, 54.3],
  [0, 10, 0, 30.8],
  [0, 20, 0, 16.8],
])('%d of %d', (positive, total, lowerPercent, upperPercent) => {
  const { interval } = proportion({ positive, total, method: 'exact', level: 0.95 })
  expect(Number((100 * interval.lower).toFixed(1))).toBe(lowerPercent)
  expect(Number((100 * interval.upper).toFixed(1))).toBe(upperPercent)
})
