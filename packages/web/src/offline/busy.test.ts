import { expect, test } from 'vitest'
import { anyTabAtWork, heldBecause, holdUpdates, onHold } from './busy.ts'

test('[OFF7] a newer version waits until the last of what keeps it has let go, and letting go twice is harmless', async () => {
  const told: number[] = []
  const stop = onHold(() => told.push(heldBecause().length))
  const [stopVisit, form] = [holdUpdates('a stop is being visited'), holdUpdates('something is typed')]
  expect(heldBecause()).toEqual(['a stop is being visited', 'something is typed'])
  expect(await anyTabAtWork()).toBe(true)
  stopVisit()
  stopVisit()
  expect(heldBecause()).toEqual(['something is typed'])
  expect(await anyTabAtWork()).toBe(true)
  form()
  expect(heldBecause()).toEqual([])
  expect(await anyTabAtWork()).toBe(false)
  stop()
  holdUpdates('after')()
  expect(told).toEqual([1, 2, 1, 0])
})
