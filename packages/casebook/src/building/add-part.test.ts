import { expect, test } from 'vitest'
import { addPart, suggestedFeeds } from './add-part.ts'
import { buildSystem } from './build-system.ts'
import { changedSystem } from './changed-system.ts'
import { checkSystem } from './check-system.ts'
import { marramHouse } from './marram-house.fixture.ts'

const marram = buildSystem(marramHouse)

test('[BLD18] an outlet added on a floor and riser is fed as its neighbours are, and the system stays sound', () => {
  const place = { kind: 'shower' as const, floor: 4, riser: 'B' }
  const feeds = suggestedFeeds(marram, place)
  expect(feeds).toEqual({ hot: 'hot-b-f4', cold: 'cold-b-f4' })
  const { id, changes } = addPart(marram, { ...place, room: '409', known: 'seen', feeds })
  const after = changedSystem(marram, changes)
  expect(checkSystem(after)).toEqual([])
  expect(after.components.find((one) => one.id === id)).toMatchObject({
    kind: 'shower',
    room: '409',
    provenance: { default: 'seen', use: 'guessed' },
  })
  const pipes = after.pipes.filter((pipe) => pipe.to === id)
  expect(pipes.map(({ circuit, provenance }) => [circuit, provenance])).toEqual([
    ['hot', { default: 'guessed' }],
    ['cold', { default: 'guessed' }],
  ])
})

test.each(['none', 'central', 'point-of-use'] as const)(
  '[BLD18] an outlet can be added on every floor and riser: mixing %s',
  (mixing) => {
    let system = buildSystem({ ...marramHouse, mixing })
    for (const riser of ['A', 'D'])
      for (const kind of ['shower', 'hose-tap', 'ice-machine'] as const) {
        const place = { kind, floor: 7, riser }
        system = changedSystem(
          system,
          addPart(system, { ...place, known: 'told', feeds: suggestedFeeds(system, place) }).changes,
        )
      }
    expect(checkSystem(system)).toEqual([])
    expect(new Set(system.components.map(({ id }) => id)).size).toBe(system.components.length)
  },
)

test('[BLD18] a pipe to another floor is longer by the floors between', () => {
  const at = (floor: number): number => {
    const place = { kind: 'hose-tap' as const, floor, riser: 'A' }
    const { changes } = addPart(marram, { ...place, known: 'told', feeds: suggestedFeeds(marram, place) })
    return changes.reduce((sum, change) => (change.change === 'put-pipe' ? sum + change.pipe.lengthM : sum), 0)
  }
  expect(at(8) - at(6)).toBeCloseTo(2 * (at(7) - at(6)))
  expect(at(7)).toBeGreaterThan(at(6))
})
