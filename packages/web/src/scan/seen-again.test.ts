import { expect, test } from 'vitest'
import { seenAgain } from './seen-again.ts'

test('a symbol held before the camera counts once, and anew after it was away', () => {
  const again = seenAgain()
  const told = [0, 200, 1600, 3000, 4600].map((now) => again('MRH-0001-AA', now))
  expect(told).toEqual([false, true, true, true, false])
})

test('another symbol in the picture counts by itself', () => {
  const again = seenAgain()
  expect([again('a', 0), again('b', 10), again('a', 20), again('b', 30)]).toEqual([false, false, true, true])
})
