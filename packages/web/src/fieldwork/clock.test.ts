import { expect, it } from 'vitest'
import { movedBy, secondsInWords, secondsSince } from './clock.ts'

it('counts from the kept instant by the wall clock, however long the page was away', () => {
  expect(secondsSince('1000', 1000)).toBe(0)
  expect(secondsSince('1000', 3_601_999)).toBe(3600)
})

it('a clock set back stands at 0; nothing kept is no clock', () => {
  expect(secondsSince('5000', 1000)).toBe(0)
  expect(secondsSince('', 1000)).toBeUndefined()
  expect(secondsSince('soon', 1000)).toBeUndefined()
})

it('a run goes on right where what is kept of it is moved with the clock', () => {
  const [started, setBy] = ['1000', 86_400_000]
  expect(secondsSince(started, 61_000 + setBy)).toBe(86_460)
  expect(secondsSince(movedBy(started, setBy), 61_000 + setBy)).toBe(60)
  expect(secondsSince(movedBy(started, -setBy), 61_000 - setBy)).toBe(60)
  expect(movedBy('', setBy)).toBe('')
})

it.each([
  [0, '0 s'],
  [45, '45 s'],
  [80, '1 min 20 s'],
  [120, '2 min'],
])('says %d as %s', (seconds, words) => expect(secondsInWords(seconds)).toBe(words))
