import { METRIC_UNITS, US_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { expect, test } from 'vitest'
import { unitsAsked, unitsQuery } from './reader-units.ts'

test('a reader asks for a system, for single units, or for nothing', () => {
  expect(unitsAsked(unitsQuery.parse({}))).toEqual(METRIC_UNITS)
  expect(unitsAsked(unitsQuery.parse({ units: 'us', count: 'per L' }))).toEqual({ ...US_UNITS, count: 'per L' })
  expect(unitsAsked(unitsQuery.parse({ temperature: '°F' }))).toEqual({ ...METRIC_UNITS, temperature: '°F' })
  expect(unitsQuery.safeParse({ units: 'imperial' }).success).toBe(false)
})
