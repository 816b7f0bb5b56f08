import { calculations } from '@rillmark/science/catalogue/catalogue.ts'
import { expect, test } from 'vitest'
import { jsonPieces } from './json-pieces.ts'

const whole = (value: unknown) => [...jsonPieces(value)].join('')

test.each(calculations.map(({ id, example }) => ({ id, example })))('$id: says what JSON says', ({ example }) => {
  expect(JSON.parse(whole(example))).toEqual(JSON.parse(JSON.stringify(example)))
})

test('without a table of numbers it is indented like any JSON', () => {
  const value = { a: [1, null, 'x"'], b: {}, c: [], d: undefined, e: [{ f: true }], 'g h': { i: [-1e-300] } }
  expect(whole(value)).toBe(JSON.stringify(value, null, 2))
  expect(whole([undefined])).toBe('[\n  null\n]')
})

test('a row of a table stands on one line, and long text comes in pieces', () => {
  expect(whole({ matrix: [[0, null], [1]] })).toBe('{\n  "matrix": [\n    [0,null],\n    [1]\n  ]\n}')
  const row = Array.from({ length: 1000 }, (_, at) => at)
  const pieces = [...jsonPieces(Array.from({ length: 500 }, () => row))]
  expect(pieces.length).toBeGreaterThan(10)
  expect(Math.max(...pieces.map(({ length }) => length))).toBeLessThan(100_000)
})
