import { expect, it } from 'vitest'
import { secondsInWords, secondsSince } from './clock.ts'

it('counts from the kept instant by the wall clock, however long the page was away', () => {
  expect(secondsSince('1000', 1000)).toBe(0)
  expect(secondsSince('1000', 3_601_999)).toBe(3600)
})

it('a clock set back stands at 0; nothing kept is no clock', () => {
  expect(secondsSince('5000', 1000)).toBe(0)
  expect(secondsSince('', 1000)).toBeUndefined()
  expect(secondsSince('soon', 1000)).toBeUndefined()
})

it.each([
  [0, '0 s'],
  [45, '45 s'],
  [80, '1 min 20 s'],
  [120, '2 min'],
])('says %d as %s', (seconds, words) => expect(secondsInWords(seconds)).toBe(words))
