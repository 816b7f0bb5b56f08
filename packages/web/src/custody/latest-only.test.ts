import { expect, test } from 'vitest'
import { LatestOnly } from './latest-only.ts'

test('only the latest that was begun, and not dropped, still counts', () => {
  const strokes = new LatestOnly()
  const first = strokes.begin()
  expect(first()).toBe(true)
  const second = strokes.begin()
  expect([first(), second()]).toEqual([false, true])
  strokes.drop()
  expect([first(), second()]).toEqual([false, false])
  expect(strokes.begin()()).toBe(true)
})
