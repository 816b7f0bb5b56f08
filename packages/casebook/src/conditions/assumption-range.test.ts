import { expect, test } from 'vitest'
import { METRIC_UNITS, US_UNITS } from '../units/display-units.ts'
import { assumptionRange } from './assumption-range.ts'

// 16 °C = 60.8 °F and 30 °C = 86 °F, 8 K = 14.4 °F: definitions of the units (NIST SP 811, from memory)
test.each([
  [{ unit: '°C', range: { lower: 16, upper: 30 } }, '16 to 30 °C', '60.8 to 86 °F'],
  [{ unit: 'K added', range: { lower: -5, upper: 5 } }, '−5 to 5 K added', '−9 to 9 °F added'],
  [{ unit: '1', range: { lower: 2, upper: 3.65 } }, '2 to 3.65', '2 to 3.65'],
  [
    { unit: 'times what is described', range: { lower: 0.5, upper: 2 } },
    '0.5 to 2 times what is described',
    '0.5 to 2 times what is described',
  ],
  [{ unit: 'mm' }, '', ''],
])('[PRD7] the range of %j is told in the units of the reader', (assumption, metric, us) => {
  expect(assumptionRange(assumption, METRIC_UNITS)).toBe(metric)
  expect(assumptionRange(assumption, US_UNITS)).toBe(us)
})
