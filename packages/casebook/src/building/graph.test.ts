import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { buildSystem } from './build-system.ts'
import { deadLegs, returnLegs, riserEnds } from './graph-questions.ts'
import type { Parts } from './graph.ts'
import { buildGraph, reachOf } from './graph.ts'
import { grid, marramHouse } from './marram-house.fixture.ts'
import type { Circuit, Component, Pipe } from './water-system.ts'

const graph = buildGraph(buildSystem(marramHouse))
const hot = reachOf(graph, { circuit: 'hot' })

test('[BLD7] the way to an outlet is the shortest one, in metres of pipe', () => {
  // heater 3 m, to riser A 6 m, two risers on 16 m, six floors of 3 m, branch 3 m
  expect(hot.get('shower-c605')?.lengthM).toBe(3 + 6 + 16 + 18 + 3)
  expect(hot.get('hot-main-a')).toMatchObject({ from: 'hot-plant', lengthM: 9 })
  expect(hot.has('hose-tap-a101')).toBe(false)
})

test('[BLD7] agrees with a slow search on any graph', () => {
  const edge = fc.record({ a: fc.nat(11), b: fc.nat(11), lengthM: fc.integer({ min: 1, max: 9 }) })
  fc.assert(
    fc.property(fc.array(edge, { maxLength: 30 }), (edges) => {
      const parts = partsFrom(edges)
      const reach = reachOf(buildGraph(parts), { circuit: 'cold' })
      const slow = slowReach(parts)
      expect(new Map([...reach].map(([id, arrival]) => [id, arrival.lengthM]))).toEqual(slow)
    }),
  )
})

function partsFrom(edges: readonly { a: number; b: number; lengthM: number }[]): Parts {
  const components = Array.from({ length: 12 }, (_, index): Component => {
    return { id: `n${index}`, kind: index === 0 ? 'supply-entry' : 'junction' }
  })
  const pipes = edges.map(({ a, b, lengthM }, index): Pipe => {
    return { id: `p${index}`, from: `n${a}`, to: `n${b}`, circuit: 'cold', lengthM }
  })
  return { components, pipes }
}

/** Relaxes every pipe until nothing gets shorter: slow and obvious. */
function slowReach({ pipes }: Parts): Map<string, number> {
  const best = new Map([['n0', 0]])
  for (let changed = true; changed; ) {
    changed = false
    for (const { from, to, lengthM } of pipes)
      for (const [a, b] of [
        [from, to],
        [to, from],
      ] as const) {
        const length = (best.get(a) ?? Number.POSITIVE_INFINITY) + lengthM
        if (length >= (best.get(b) ?? Number.POSITIVE_INFINITY)) continue
        best.set(b, length)
        changed = true
      }
  }
  return best
}

test('[BLD7] nearest and farthest outlet of each riser', () => {
  const reaches = new Map<Circuit, ReturnType<typeof reachOf>>([['hot', hot]])
  const ends = riserEnds(graph, reaches)
  expect(ends.map((one) => one.riser)).toEqual(['A', 'B', 'C', 'D'])
  expect(ends[2]?.nearest.outlet).toBe('basin-tap-c105')
  expect(ends[2]?.farthest).toEqual({ outlet: 'basin-tap-c606', lengthM: 50.5 })
})

test('[BLD7] each return, from the top of its riser', () => {
  expect(returnLegs(graph).map((leg) => [leg.riser, leg.from])).toEqual([
    ['A', 'hot-a-f6'],
    ['B', 'hot-b-f6'],
    ['C', 'hot-c-f6'],
    ['D', 'hot-d-f6'],
  ])
  const whole = buildGraph(buildSystem({ ...marramHouse, recirculation: 'whole' }))
  expect(returnLegs(whole).map((leg) => [leg.from, leg.to])).toEqual([['hot-main-d', 'return-pump']])
})

test('[BLD7] a dead leg ends in unused outlets, drains or nothing', () => {
  const system = buildSystem(grid({ floors: 2, risers: 1, each: 2 }))
  const unused = system.components.map((one) =>
    one.floor === 2 && one.kind === 'shower' ? { ...one, use: { pattern: 'unused' as const } } : one,
  )
  const stub: Component = { id: 'cap', kind: 'junction' }
  const stubPipe: Pipe = { id: 'stub', from: 'cold-a-f1', to: 'cap', circuit: 'cold', lengthM: 7 }
  const legs = deadLegs(buildGraph({ components: [...unused, stub], pipes: [...system.pipes, stubPipe] }))
  expect(legs.map((leg) => [leg.from, leg.circuit, leg.lengthM, leg.outlets])).toEqual([
    ['cold-a-f1', 'cold', 7, []],
    ['cold-a-f2', 'cold', 3, ['shower-a201']],
    ['hot-a-f2', 'hot', 3, ['shower-a201']],
  ])
  expect(deadLegs(graph)).toEqual([])
})
