import { METRIC_UNITS, US_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { expect, test } from 'vitest'
import { unitsKept, unitsQuery } from './reader-units.ts'

test('units of the record are not asked for and not kept; others are, each by its name', () => {
  expect(unitsQuery(METRIC_UNITS)).toEqual({})
  expect(unitsKept(METRIC_UNITS)).toEqual({})
  expect(unitsQuery({ ...METRIC_UNITS, temperature: '°F' })).toEqual({ temperature: '°F' })
  expect(unitsKept(US_UNITS)).toEqual({ units: US_UNITS })
})
