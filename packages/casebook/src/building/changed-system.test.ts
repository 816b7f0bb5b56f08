import { expect, test } from 'vitest'
import { buildSystem } from './build-system.ts'
import { allKnown, changedFacts, changedSystem, changesBetween, nowKnown } from './changed-system.ts'
import { marramHouse } from './marram-house.fixture.ts'
import type { WaterSystem } from './water-system.ts'

const marram = buildSystem(marramHouse)

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
  const before = marram.components.find((one) => one.id === 'shower-c605')
  if (before === undefined) throw new Error('the shower is gone')
  const { use: _, ...rest } = before
  const after = { ...rest, room: '605b' }
  const facts = changedFacts(before, after)
  expect(facts.toSorted()).toEqual(['room', 'use'])
  expect(nowKnown(after, { facts, known: 'seen' }).provenance).toEqual({ ...before.provenance, room: 'seen' })
  expect(allKnown(after, 'drawn').provenance).toEqual({ default: 'drawn' })
})
