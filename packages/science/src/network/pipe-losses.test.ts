import { expect, test } from 'vitest'
import { pipeLosses } from './pipe-losses.ts'
import { smallNetwork } from './small-networks.fixture.ts'

const withLength = (lengthM: number) =>
  smallNetwork({ nodes: { entry: { sourceC: 12 }, tap: 'junction' }, pipes: { 'entry tap': { lengthM } } })

test('a pipe has a length: one of none would hold no water to tell of', () => {
  expect(() => pipeLosses(withLength(0))).toThrow(
    'Cannot find the flow of pipe "entry tap" because its length must be above 0 m: got 0',
  )
  expect(pipeLosses(withLength(0.001)).lengthM).toEqual(new Float64Array([0.001]))
})
