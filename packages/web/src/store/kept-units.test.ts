import { METRIC_UNITS, US_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { expect, test } from 'vitest'
import { keptUnits } from './kept-units.ts'

test('units kept on the device come back; nothing, or nonsense, is the units of the record', () => {
  expect(keptUnits(JSON.parse(JSON.stringify(US_UNITS)))).toEqual(US_UNITS)
  expect([undefined, null, 'F', 7, { temperature: 'K' }].map(keptUnits)).toEqual(
    Array.from({ length: 5 }, () => METRIC_UNITS),
  )
})

test('what was kept in earlier words is understood', () => {
  expect(keptUnits({ temperature: '°F', volume: 'gal', length: 'in', count: 'per L' })).toEqual({
    ...METRIC_UNITS,
    temperature: '°F',
    volume: 'US gal',
    bore: 'in',
    length: 'ft',
    count: 'per L',
  })
})
