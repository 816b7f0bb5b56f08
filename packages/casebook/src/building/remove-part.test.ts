import { expect, test } from 'vitest'
import { buildSystem } from './build-system.ts'
import { changedSystem } from './changed-system.ts'
import { checkSystem } from './check-system.ts'
import { marramHouse } from './marram-house.fixture.ts'
import { canJoin, removalOf } from './remove-part.ts'

const marram = buildSystem(marramHouse)

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
