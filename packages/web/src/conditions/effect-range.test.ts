import { METRIC_UNITS, US_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { expect, test } from 'vitest'
import { effectRange } from './effect-range.ts'

// 50 °C = 122 °F, 55 °C = 131 °F: the definition of the scales.
test.each([
  [{ baseline: 52, atLower: 50, atUpper: 55 }, '°C', '50 to 55 °C', '122 to 131 °F'],
  [{ baseline: 50, atLower: 55, atUpper: undefined }, '°C', '50 to 55 °C', '122 to 131 °F'],
  [{ baseline: 0.4, atLower: 0.4, atUpper: 0.4 }, 'mg/L', '0.4 mg/L', '0.4 mg/L'],
  [{ baseline: 0.4, atLower: undefined, atUpper: undefined }, '', '0.4', '0.4'],
])('%j %s is said as %s, and %s in US units', (effect, unit, metric, us) => {
  expect(effectRange(effect, { unit, units: METRIC_UNITS })).toBe(metric)
  expect(effectRange(effect, { unit, units: US_UNITS })).toBe(us)
})
