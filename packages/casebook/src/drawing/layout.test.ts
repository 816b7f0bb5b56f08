import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { grid, marramHouse } from '../building/marram-house.fixture.ts'
import type { WaterSystem } from '../building/water-system.ts'
import { layoutSystem } from './layout.ts'
import type { Layout } from './places.ts'

const marram = buildSystem(marramHouse)

const positions = (layout: Layout): string[] =>
  [...layout.spots].map(([id, spot]) => `${id} ${spot.role} ${spot.x} ${spot.y}`).sort()

function shuffled(system: WaterSystem, seed: number): WaterSystem {
  let state = seed + 1
  const next = (): number => {
    state = (state * 48271) % 2147483647
    return state
  }
  const mixed = <T>(list: readonly T[]): T[] =>
    list
      .map((item) => ({ item, key: next() }))
      .sort((a, b) => a.key - b.key)
      .map(({ item }) => item)
  return { ...system, components: mixed(system.components), pipes: mixed(system.pipes) }
}

test('[BLD8] the order of the lists moves nothing on the drawing', () => {
  const central = buildSystem({ ...marramHouse, mixing: 'central', coldTank: {} })
  fc.assert(
    fc.property(fc.nat(1_000_000), fc.constantFrom(marram, central), (seed, system) => {
      const layout = layoutSystem(shuffled(system, seed))
      expect(positions(layout)).toEqual(positions(layoutSystem(system)))
      const lines = (one: Layout): string[] => one.routes.map((route) => JSON.stringify(route.points)).sort()
      expect(lines(layout)).toEqual(lines(layoutSystem(system)))
    }),
    { numRuns: 15 },
  )
})

test('[BLD8] other ids of the same order move nothing either', () => {
  const renamed = JSON.parse(JSON.stringify(marram).replaceAll(/"(id|from|to)":"/g, '"$1":"x-')) as WaterSystem
  expect(positions(layoutSystem(renamed))).toEqual(positions(layoutSystem(marram)).map((line) => `x-${line}`))
})

test('[BLD8] floors stand over each other, risers beside each other, plant below or above', () => {
  const layout = layoutSystem(marram)
  expect(layout.floors.map((floor) => floor.label)).toEqual([
    'Floor 6',
    'Floor 5',
    'Floor 4',
    'Floor 3',
    'Floor 2',
    'Floor 1',
  ])
  expect(layout.columns.map((column) => column.label)).toEqual(['A', 'B', 'C', 'D'])
  const lowest = layout.floors.at(-1)?.line ?? 0
  expect(layout.spots.get('heater-1')?.y).toBeGreaterThan(lowest)
  const roof = layoutSystem(buildSystem({ ...marramHouse, plant: { position: 'roof' } }))
  expect(roof.spots.get('heater-1')?.y).toBeLessThan(roof.floors[0]?.top ?? 0)
})

test.each([
  ['few', grid({ floors: 2, risers: 1, each: 5 }), 0],
  ['a house', marramHouse, 0],
  ['many', grid({ floors: 20, risers: 10, each: 10 }), 200],
])('[BLD9] %s outlets: no two outlets or counted groups overlap', (_, description, groups) => {
  const layout = layoutSystem(buildSystem(description))
  expect(layout.groups).toHaveLength(groups)
  const seen = new Set<string>()
  for (const spot of layout.spots.values()) {
    if (spot.role !== 'outlet' && spot.role !== 'equipment') continue
    const place = `${spot.x} ${spot.y}`
    expect(seen.has(place), spot.component.id).toBe(false)
    seen.add(place)
    expect(spot.x).toBeLessThan(layout.width)
    expect(spot.y).toBeLessThan(layout.height)
  }
  const boxes = layout.groups.toSorted((a, b) => a.top - b.top || a.left - b.left)
  for (const [index, box] of boxes.entries()) {
    const next = boxes[index + 1]
    const apart = next === undefined || next.top >= box.top + box.height || next.left >= box.left + box.width
    expect(apart).toBe(true)
  }
})

test('[BLD9] a collapsed drawing opens the places asked for, and only those', () => {
  const system = buildSystem(grid({ floors: 20, risers: 10, each: 10 }))
  const layout = layoutSystem(system, { expanded: [{ floor: 18, riser: 'C' }] })
  expect(layout.groups).toHaveLength(199)
  const drawn = [...layout.spots.values()].filter((spot) => spot.role === 'outlet')
  expect(new Set(drawn.map((spot) => `${spot.component.floor}${spot.component.riser}`))).toEqual(new Set(['18C']))
  expect(layoutSystem(system, { detail: 'all' }).groups).toEqual([])
})

test('[BLD10] what has no floor or riser still gets a place, and so do several plants and entries', () => {
  const loose = marram.components.map((one) => {
    if (one.id !== 'shower-c605' && one.id !== 'basin-tap-a601') return one
    const { floor: _floor, riser: _riser, ...rest } = one
    return one.id === 'shower-c605' ? rest : { ...rest, floor: 6 }
  })
  const more: WaterSystem = {
    ...marram,
    components: [
      ...loose,
      { id: 'entry-2', kind: 'supply-entry' },
      { id: 'roof-tank', kind: 'cold-tank', floor: 9 },
      { id: 'local', kind: 'instant-heater', floor: 3, riser: 'B' },
      { id: 'tower', kind: 'cooling-tower', floor: 8 },
    ],
    pipes: [
      ...marram.pipes,
      { id: 'up', from: 'cold-plant', to: 'roof-tank', circuit: 'cold', lengthM: 30 },
      { id: 'cool', from: 'roof-tank', to: 'tower', circuit: 'cold', lengthM: 5 },
    ],
  }
  const layout = layoutSystem(more)
  for (const one of more.components) expect(layout.spots.has(one.id), one.id).toBe(true)
  expect(layout.plants.map((plant) => plant.side)).toEqual(['bottom', 'roof'])
  expect(layout.columns.at(-1)?.label).toBe('no riser')
  expect(layout.floors.at(-1)?.label).toBe('no floor')
  expect(layout.routes.flatMap((route) => route.pipes)).toHaveLength(more.pipes.length)
})

test('[BLD8] every pipe is drawn in level and upright stretches', () => {
  const slanted = (['none', 'central', 'point-of-use'] as const).flatMap((mixing) =>
    layoutSystem(buildSystem({ ...marramHouse, mixing, coldTank: {} })).routes.filter(({ points }) =>
      points.some((point, index) => {
        const before = points[index - 1] ?? point
        return before.x !== point.x && before.y !== point.y
      }),
    ),
  )
  expect(slanted).toEqual([])
})

test('[BLD10] any described system can be laid out', () => {
  const kinds = fc.constantFrom(
    'junction',
    'shower',
    'pump',
    'storage-heater',
    'mixing-valve',
    'drain-valve',
    'supply-entry',
  )
  const component = fc.record({
    id: fc.string({ minLength: 1, maxLength: 3 }),
    kind: kinds,
    floor: fc.option(fc.integer({ min: -2, max: 5 }), { nil: undefined }),
    riser: fc.option(fc.constantFrom('A', 'B', 'B2'), { nil: undefined }),
  })
  const pipe = fc.record({
    a: fc.nat(20),
    b: fc.nat(20),
    circuit: fc.constantFrom('cold', 'hot', 'tempered', 'hot-return'),
  })
  const parts = fc.tuple(
    fc.uniqueArray(component, { selector: (one) => one.id, minLength: 1, maxLength: 20 }),
    fc.array(pipe, { maxLength: 30 }),
  )
  fc.assert(
    fc.property(parts, ([components, links]) => {
      const pipes = links.map(({ a, b, circuit }, index) => {
        const end = (at: number): string => components[at % components.length]?.id ?? ''
        return { id: `p${index}`, from: end(a), to: end(b), circuit, lengthM: 1 }
      })
      const layout = layoutSystem({ ...marram, components, pipes } as WaterSystem)
      expect(layout.spots.size).toBe(components.length)
      const numbers = [...layout.spots.values()].flatMap(({ x, y }) => [x, y])
      const corners = layout.routes.flatMap((route) => route.points.flatMap(({ x, y }) => [x, y]))
      expect([...numbers, ...corners].every(Number.isFinite)).toBe(true)
    }),
  )
})
