import { expect, test } from 'vitest'
import { buildSystem } from './build-system.ts'
import { floorName, floorWords } from './floor-words.ts'
import { marramHouse } from './marram-house.fixture.ts'

test('[BLD27] a floor is called by its name, else by what people say', () => {
  const names = [
    { floor: 0, name: 'Plant' },
    { floor: 2, name: 'Ward 2 North' },
  ]
  expect([-1, 0, 1, 2].map((floor) => floorName(names, floor))).toEqual([
    'Basement 1',
    'Plant',
    'Floor 1',
    'Ward 2 North',
  ])
  expect([-1, 0, 1, 2].map((floor) => floorWords(names, floor))).toEqual([
    'basement 1',
    'plant',
    'floor 1',
    'ward 2 North',
  ])
  expect(floorWords(undefined, 0)).toBe('ground')
})

test('[BLD27] the floor of the plant is called so wherever a quick description put it', () => {
  const system = buildSystem(marramHouse)
  const heater = system.components.find(({ kind }) => kind === 'storage-heater')
  expect(floorWords(system.floors, heater?.floor ?? Number.NaN)).toBe('plant')
})
