import { expect, test } from 'vitest'
import { mergeOverrides } from './merge-overrides.ts'

test('tables and lists of changes are joined, of single figures the last counts', () => {
  expect(
    mergeOverrides([
      { lossFactor: 1, setpointC: { a: 60 }, closedPipes: ['p1'] },
      { lossFactor: 2, setpointC: { b: 55 }, closedPipes: ['p2'], ambientShiftK: -1 },
    ]),
  ).toEqual({ lossFactor: 2, setpointC: { a: 60, b: 55 }, closedPipes: ['p1', 'p2'], ambientShiftK: -1 })
  expect(mergeOverrides([])).toEqual({})
})
