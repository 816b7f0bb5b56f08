import { expect, test } from 'vitest'
import { isRecord, jsonOf } from './json-draft.ts'

test('a draft held as JSON gives its value, anything else itself', () => {
  expect([' ', '{"below":10}', 'null', 'ten', undefined].map(jsonOf)).toEqual([
    undefined,
    { below: 10 },
    null,
    'ten',
    undefined,
  ])
  expect([{}, [], null, 'x'].map(isRecord)).toEqual([true, false, false, false])
})
