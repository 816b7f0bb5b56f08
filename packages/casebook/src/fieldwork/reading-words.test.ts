import { expect, test } from 'vitest'
import { METRIC_UNITS, US_UNITS } from '../units/display-units.ts'
import { instrumentRange, instrumentStep, readingAmount } from './reading-words.ts'

// 60 °C = 140 °F, a step of 0.1 K is one of 0.18 °F: the scales' definitions.
test.each([
  [{ kind: 'value', value: 60, unit: 'Cel' }, '60 °C', '140 °F'],
  [{ kind: 'below', limit: 0.1, unit: 'mg/L' }, 'below 0.1 mg/L', 'below 0.1 mg/L'],
  [{ kind: 'above', limit: 100, unit: 'Cel' }, 'above 100 °C', 'above 212 °F'],
  [{ kind: 'value', value: 7.4, unit: '[pH]' }, '7.4', '7.4'],
] as const)('[UNI5] %j reads %s, and %s in US units', (reading, metric, us) => {
  expect(readingAmount(reading)).toBe(metric)
  expect(readingAmount(reading, { units: US_UNITS })).toBe(us)
})

test('[UNI8] an instrument: its range is of temperatures, its step is a difference', () => {
  const thermometer = { rangeMin: -50, rangeMax: 300, resolution: 0.1, unit: 'Cel' } as const
  expect(instrumentRange(thermometer)).toBe('−50 to 300 °C')
  expect(instrumentRange(thermometer, US_UNITS)).toBe('−58 to 572 °F')
  expect(instrumentStep(thermometer, METRIC_UNITS)).toBe('0.1')
  expect(instrumentStep(thermometer, US_UNITS)).toBe('0.2 °F')
  expect(instrumentRange({ rangeMin: 0, rangeMax: 14, unit: '[pH]' })).toBe('0 to 14 pH')
  expect(readingAmount({ kind: 'below', limit: 0.1, unit: 'mg/L' }, { signs: true })).toBe('< 0.1 mg/L')
})
