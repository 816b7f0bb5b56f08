import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Pipe, WaterSystem } from '../building/water-system.ts'
import { CIRCUITS } from '../building/water-system.ts'
import { simulateConditions } from './simulate-conditions.ts'
import { pumped, straight, tempered, twoReturns } from './small-systems.fixture.ts'

const BASES = [twoReturns(), pumped(), tempered('heater'), tempered('valve'), straight()]
const index = fc.nat(1000)

/** One thing that may be odd about a description. */
const change = fc.oneof(
  fc.record({ drop: index }),
  fc.record({ turn: index }),
  fc.record({ as: fc.constantFrom(...CIRCUITS), pipe: index }),
  fc.record({ returns: fc.constantFrom(undefined, 0, 2, 3.05, 40) }),
  fc.record({ thin: fc.constantFrom(0.5, 4, 300), pipe: index }),
  fc.record({ air: fc.constantFrom(-40, 0, 60, 150), pipe: index }),
  fc.record({ setpointC: fc.constantFrom(15, 43, 100) }),
  fc.record({ join: fc.tuple(index, index), as: fc.constantFrom(...CIRCUITS) }),
)
type Change = typeof change extends fc.Arbitrary<infer T> ? T : never

function changed(system: WaterSystem, one: Change): WaterSystem {
  const { components, pipes } = system
  const at = (place: number, edit: (pipe: Pipe) => Pipe): WaterSystem => ({
    ...system,
    pipes: pipes.map((each, here) => (here === place % pipes.length ? edit(each) : each)),
  })
  if ('drop' in one) return { ...system, pipes: pipes.filter((_, here) => here !== one.drop % pipes.length) }
  if ('turn' in one) return at(one.turn, (pipe) => ({ ...pipe, from: pipe.to, to: pipe.from }))
  if ('join' in one) {
    const [from = '', to = ''] = one.join.map((place) => components[place % components.length]?.id ?? '')
    return { ...system, pipes: [...pipes, { id: 'odd', from, to, circuit: one.as, lengthM: 3, boreMm: 13 }] }
  }
  if ('as' in one) return at(one.pipe, (pipe) => ({ ...pipe, circuit: one.as }))
  if ('thin' in one)
    return at(one.pipe, ({ standard: _s, size: _z, ...pipe }) => ({ ...pipe, boreMm: one.thin, insulationMm: 0 }))
  if ('air' in one) return at(one.pipe, (pipe) => ({ ...pipe, ambientC: one.air }))
  if ('setpointC' in one)
    return {
      ...system,
      components: components.map((each) => (each.setpointC === undefined ? each : { ...each, ...one })),
    }
  const flow = { recirculationLPerMin: one.returns }
  return { ...system, pipes: pipes.map((each) => (each.circuit === 'hot-return' ? { ...each, ...flow } : each)) }
}

function figuresOf(value: unknown): number[] {
  if (typeof value === 'number') return [value]
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(figuresOf) : []
}

test('[SIM3] whatever is odd about a description, it is answered: with reasons, or with figures that are numbers', () => {
  const kinds = new Set<string>()
  fc.assert(
    fc.property(fc.constantFrom(...BASES), fc.array(change, { maxLength: 3 }), (base, changes) => {
      const system = changes.reduce(changed, base)
      const answer = simulateConditions(system, { mostDays: 2 })
      kinds.add(answer.kind)
      const conditions = answer.kind === 'conditions' ? answer.conditions : undefined
      const figures = figuresOf([conditions?.components, conditions?.pipes, conditions?.balance])
      expect(answer.kind === 'conditions' ? figures.length : answer.reasons.length).toBeGreaterThan(0)
      expect(figures.every(Number.isFinite)).toBe(true)
      for (const { temperatureC, growthIndex } of Object.values(conditions?.components ?? {})) {
        expect(temperatureC.min).toBeGreaterThanOrEqual(-0.001)
        expect(temperatureC.max).toBeLessThanOrEqual(100.001)
        expect(growthIndex).toBeLessThanOrEqual(1)
      }
    }),
    { numRuns: 60 },
  )
  expect([...kinds].sort()).toEqual(['cannot-say', 'conditions'])
}, 120_000)
