import { KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { expect, test } from 'vitest'
import { fieldsOf } from './field-spec.ts'
import { labelAt } from './label-at.ts'

const clearing = findCalculation('clearing-time')
const ordered = fieldsOf(KINDS['measure.ordered'].body)
const reported = fieldsOf(KINDS['result.reported'].body)

test.each([
  [clearing === undefined ? [] : fieldsOf(clearing.input), 'segments.0.lengthM', 'Segment 1: length of pipe', 'm'],
  [ordered, 'target.value', 'Target: value', ''],
  [ordered, 'dueOn', 'Due on', ''],
  [ordered, 'calculation.input.deep.0', 'Calculation: input: deep 1', ''],
  [ordered, 'calculation.result.capacityMgPerL', 'Calculation: result: capacity', 'mg/L'],
  [reported, 'value.volumeMl', 'Value: volume', 'mL'],
  [reported, '', '', ''],
] as const)('a path is called what a person calls the place (%#: %s)', (fields, path, label, unit) => {
  expect(labelAt(fields, path)).toEqual({ label, unit })
})
