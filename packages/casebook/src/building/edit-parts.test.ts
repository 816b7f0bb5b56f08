import { expect, test } from 'vitest'
import { addPart, suggestedFeeds } from './add-part.ts'
import { buildSystem } from './build-system.ts'
import { allKnown, changedFacts, changedSystem, changesBetween, nowKnown } from './changed-system.ts'
import { checkSystem } from './check-system.ts'
import { marramHouse } from './marram-house.fixture.ts'
import { canJoin, removalOf } from './remove-part.ts'
import type { Component, WaterSystem } from './water-system.ts'

const marram = buildSystem(marramHouse)
const partOf = (id: string, system: WaterSystem = marram): Component => {
  const found = system.components.find((one) => one.id === id)
  if (found === undefined) throw new Error(`no ${id}`)
  return found
}

test('[BLD18] an outlet added on a floor and riser is fed as its neighbours are, and the system stays sound', () => {
  const place = { kind: 'shower' as const, floor: 4, riser: 'B' }
  const feeds = suggestedFeeds(marram, place)
  expect(feeds).toEqual({ hot: 'hot-b-f4', cold: 'cold-b-f4' })
  const { id, changes } = addPart(marram, { ...place, room: '409', known: 'seen', feeds })
  const after = changedSystem(marram, changes)
  expect(checkSystem(after)).toEqual([])
  expect(partOf(id, after)).toMatchObject({
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

test('[BLD19] taking an outlet out takes its pipes along and cuts nothing off', () => {
  const { changes, pipes, cutOff } = removalOf(marram, { id: 'shower-c605' })
  expect([pipes.length, cutOff]).toEqual([2, []])
  expect(checkSystem(changedSystem(marram, changes))).toEqual([])
})

test('[BLD19] taking a junction out says everything that loses its water', () => {
  const { cutOff } = removalOf(marram, { id: 'cold-c-f4' })
  const expected = marram.components.filter(
    (one) => one.riser === 'C' && (one.floor ?? 0) >= 4 && one.use !== undefined,
  )
  expect(cutOff.map(({ component }) => component.id).sort()).toEqual(expected.map(({ id }) => id).sort())
  expect(cutOff.every(({ circuits }) => circuits.join() === 'cold')).toBe(true)
})

test('[BLD19] what merely lies between two pipes of one circuit can give way to one pipe', () => {
  const [first, ...rest] = marram.pipes.filter((pipe) => pipe.to === 'cold-c-f4')
  if (first === undefined || rest.length > 0) throw new Error('one pipe was expected')
  const stop = { id: 'stop', kind: 'junction' as const }
  const split = {
    ...marram,
    components: [...marram.components, stop],
    pipes: [
      ...marram.pipes.filter((pipe) => pipe !== first),
      { ...first, to: 'stop', lengthM: 1 },
      { ...first, id: 'rest', from: 'stop', lengthM: first.lengthM - 1 },
    ],
  }
  expect([canJoin(split, 'stop'), canJoin(marram, 'cold-c-f4'), canJoin(marram, 'shower-c605')]).toEqual([
    true,
    false,
    false,
  ])
  const { changes, cutOff } = removalOf(split, { id: 'stop', join: true })
  expect(cutOff).toEqual([])
  const joined = changedSystem(split, changes).pipes.find((pipe) => pipe.id === first.id)
  expect(joined).toEqual({ ...first, lengthM: expect.closeTo(first.lengthM) as number })
})

test('[BLD20] the changes between two systems make one of the other', () => {
  const other = buildSystem({ ...marramHouse, risers: ['A', 'B', 'E'], mixing: 'central' })
  const after = changedSystem(marram, changesBetween(marram, other))
  const sorted = ({ components, pipes }: WaterSystem) => [
    components.toSorted((a, b) => (a.id < b.id ? -1 : 1)),
    pipes.toSorted((a, b) => (a.id < b.id ? -1 : 1)),
  ]
  expect(sorted(after)).toEqual(sorted(other))
  expect(changesBetween(marram, marram)).toEqual([])
})

test('[BLD21] a changed fact says how it is known; the others keep their word, and a fact no longer stated has none', () => {
  const before = partOf('shower-c605')
  const { use: _, ...rest } = before
  const after = { ...rest, room: '605b' }
  const facts = changedFacts(before, after)
  expect(facts.toSorted()).toEqual(['room', 'use'])
  expect(nowKnown(after, { facts, known: 'seen' }).provenance).toEqual({ ...before.provenance, room: 'seen' })
  expect(allKnown(after, 'drawn').provenance).toEqual({ default: 'drawn' })
})
