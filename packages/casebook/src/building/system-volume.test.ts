import { expect, test } from 'vitest'
import { buildSystem } from './build-system.ts'
import { marramHouse } from './marram-house.fixture.ts'
import { waterHeld } from './system-volume.ts'

const vessel = { id: 'h', kind: 'storage-heater', volumeL: 300 } as const
const pipe = { id: 'p', from: 'h', to: 'x', circuit: 'hot', lengthM: 10 } as const

test('pipes and vessels are summed: 10 m of 20 mm bore hold 3.14 L', () => {
  const held = waterHeld({ components: [vessel], pipes: [{ ...pipe, boreMm: 20 }] })
  expect(held.volumeL).toBeCloseTo(300 + Math.PI, 12)
  expect(held.notCounted).toBe(0)
})

test('a size of the catalogue counts with its bore', () => {
  const held = waterHeld({ components: [], pipes: [{ ...pipe, standard: 'en-1057', size: '22x1' }] })
  expect(held.volumeL).toBeCloseTo(Math.PI, 12)
})

test('what is not known is left out and counted, never guessed', () => {
  const held = waterHeld({
    components: [vessel, { id: 't', kind: 'cold-tank' }],
    pipes: [pipe, { ...pipe, id: 'q', standard: 'en-1057', size: 'no such size' }],
  })
  expect(held).toEqual({ volumeL: 300, notCounted: 3 })
})

test('the worked example holds more than its vessels and less than a pool', () => {
  const system = buildSystem(marramHouse)
  const vessels = system.components.reduce((sum, { volumeL = 0 }) => sum + volumeL, 0)
  const { volumeL } = waterHeld(system)
  expect(volumeL).toBeGreaterThan(vessels)
  expect(volumeL).toBeLessThan(vessels + 5000)
})
