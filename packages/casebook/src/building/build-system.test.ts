import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { buildSystem } from './build-system.ts'
import { checkSystem } from './check-system.ts'
import { grid, marramHouse } from './marram-house.fixture.ts'
import { quickDescriptionSchema, shapeOf } from './quick-description.ts'
import { isHeater, isOutlet, knownByOf, waterSystemSchema } from './water-system.ts'

test('[BLD1] two minutes of answers give the whole of Marram House', () => {
  const system = buildSystem(marramHouse)
  expect(waterSystemSchema.safeParse(system).error).toBeUndefined()
  expect(system.components.filter(isOutlet)).toHaveLength(93)
  expect(system.components.filter(isHeater).map((one) => one.volumeL)).toEqual([1000, 1000])
  expect(system.components.find((one) => one.id === 'shower-c605')).toMatchObject({ riser: 'C', floor: 6, room: '605' })
  expect(system.pipes.filter((one) => one.circuit === 'hot-return' && one.from.endsWith('-f6'))).toHaveLength(4)
})

test('[BLD1] the same description gives the same system, to the letter', () => {
  expect(JSON.stringify(buildSystem(marramHouse))).toBe(JSON.stringify(buildSystem(structuredClone(marramHouse))))
})

test('[BLD1] every id is used once, whatever the risers are called', () => {
  const riser = fc.constantFrom('A', 'a1', 'A-1', 'North 2', 'Süd', 'f1', 'B12', '1')
  const description = fc.record({
    floors: fc.integer({ min: 1, max: 13 }),
    risers: fc.uniqueArray(riser, { minLength: 1, maxLength: 5 }),
    shower: fc.nat(3),
    tap: fc.nat(4),
  })
  fc.assert(
    fc.property(description, ({ floors, risers, shower, tap }) => {
      const outlets = { shower, 'basin-tap': tap }
      const system = buildSystem({ ...marramHouse, floors, risers, outlets, overrides: [] })
      for (const list of [system.components, system.pipes]) {
        const ids = list.map((one) => one.id)
        expect(new Set(ids).size).toBe(ids.length)
      }
    }),
    { numRuns: 50 },
  )
})

test('[BLD2] what was said is told, what was filled in is guessed', () => {
  const { temperatureC: _, ...supply } = marramHouse.supply
  const system = buildSystem({ ...marramHouse, supply, heaters: [{ kind: 'storage', volumeL: 800 }] })
  const heater = system.components.find(isHeater)
  if (heater === undefined) throw new Error('no heater was built')
  expect(['kind', 'volumeL', 'setpointC'].map((fact) => knownByOf(heater, fact))).toEqual(['told', 'told', 'guessed'])
  expect(knownByOf(system.supply, 'disinfectant')).toBe('told')
  expect(knownByOf(system.supply, 'temperatureC')).toBe('guessed')
  for (const pipe of system.pipes) expect(knownByOf(pipe, 'lengthM')).toBe('guessed')
  for (const part of [...system.components, ...system.pipes]) expect(knownByOf(part, 'anything')).toBeDefined()
})

test('[BLD1] an override holds for the riser, the floor or the place it names, the last one winning', () => {
  const system = buildSystem({
    ...grid({ floors: 3, risers: 2, each: 3 }),
    overrides: [
      { riser: 'B', outlets: { bath: 1 } },
      { floor: 2, outlets: { eyewash: 1 } },
      { floor: 2, riser: 'A', outlets: {} },
    ],
  })
  const at = (riser: string, floor: number) =>
    system.components
      .filter((one) => isOutlet(one) && one.riser === riser && one.floor === floor)
      .map((one) => one.kind)
  expect(at('A', 1)).toEqual(['shower', 'basin-tap', 'kitchen-tap'])
  expect([at('B', 1), at('B', 2), at('A', 2)]).toEqual([['bath'], ['eyewash'], []])
})

test('[BLD1] floors may start below ground and the plant stand on the roof', () => {
  const shape = shapeOf({ ...marramHouse, floors: { count: 4, first: -1 }, plant: { position: 'roof' } })
  expect(shape).toMatchObject({ floors: [-1, 0, 1, 2], plantFloor: 3, risers: ['A', 'B', 'C', 'D'] })
})

test('[BLD1] risers that would share their ids are refused', () => {
  expect(quickDescriptionSchema.safeParse({ ...marramHouse, risers: ['A 1', 'a-1'] }).success).toBe(false)
  expect(quickDescriptionSchema.safeParse(marramHouse).success).toBe(true)
})

test('[BLD1] heaters set low leave no outlet that is assumed to mix hotter than they are', () => {
  const heaters = [{ kind: 'storage' as const, setpointC: 40 }]
  expect(checkSystem(buildSystem({ ...marramHouse, heaters }))).toEqual([])
})
