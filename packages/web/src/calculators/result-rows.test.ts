import { METRIC_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { expect, test } from 'vitest'
import * as z from 'zod'
import { fieldsOf } from '../form/field-spec.ts'
import { readableResult, valueWords } from './result-rows.ts'

test.each([
  [0, '0'],
  [-3, '−3'],
  [0.123456, '0.1235'],
  [10_000_000, '10000000'],
  [23_841_234.5, '23840000'],
  [2.0172e40, '2.02 × 10⁴⁰'],
  [-1e12, '−1.00 × 10¹²'],
  [2.34e-9, '2.34 × 10⁻⁹'],
  ['free-chlorine', 'free chlorine'],
  [{ below: 100 }, 'below 100'],
  [undefined, 'no finite value'],
])('%j reads %s', (value, want) => {
  expect(valueWords(value, { unit: '', units: METRIC_UNITS })).toBe(want)
})

test('a p value too small for a number says so; what was put in stays as it was', () => {
  const fields = fieldsOf(z.object({ p: z.number() }))
  const read = (given: boolean) =>
    readableResult({ fields, values: { p: 0 }, units: METRIC_UNITS, given }).rows[0]?.words
  expect(read(false)).toBe('less than 1e-300')
  expect(read(true)).toBe('0')
})
