import { expect, test } from 'vitest'
import { mergeOverrides } from './merge-overrides.ts'

test('tables and lists of changes are joined, of single figures the last counts', () => {
  expect(
    mergeOverrides([
      { hotLossFactor: 1, setpointC: { a: 60 }, closedPipes: ['p1'] },
      { hotLossFactor: 2, setpointC: { b: 55 }, closedPipes: ['p2'], ambientShiftK: -1 },
    ]),
  ).toEqual({ hotLossFactor: 2, setpointC: { a: 60, b: 55 }, closedPipes: ['p1', 'p2'], ambientShiftK: -1 })
  expect(mergeOverrides([])).toEqual({})
})
