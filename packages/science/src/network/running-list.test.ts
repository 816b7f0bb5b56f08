import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { RunningList } from './running-list.ts'

const LENGTH = 100

test('what runs is found in order, as a set has it, and nothing else', () => {
  const changes = fc.array(fc.tuple(fc.nat({ max: LENGTH - 1 }), fc.boolean()), { maxLength: 200 })
  fc.assert(
    fc.property(changes, (each) => {
      const list = new RunningList(LENGTH)
      const runs = new Set<number>()
      for (const [place, on] of each) {
        list.set(place, on)
        if (on) runs.add(place)
        else runs.delete(place)
      }
      const found: number[] = []
      for (let place = list.nextRunning(0); place < LENGTH; place = list.nextRunning(place + 1)) found.push(place)
      expect(found).toEqual([...runs].toSorted((a, b) => a - b))
    }),
    { seed: 20261130, numRuns: 300 },
  )
})

test('in a list of no pipes nothing runs', () => {
  expect(new RunningList(0).nextRunning(0)).toBe(0)
})
