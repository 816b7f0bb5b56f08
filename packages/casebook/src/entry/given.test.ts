import { expect, test } from 'vitest'
import { given } from './given.ts'

test('undefined fields go, every other value stays', () => {
  const fields = given({ a: undefined, b: 0, c: '', d: false, e: null })
  expect(Object.keys(fields)).toEqual(['b', 'c', 'd', 'e'])
})
