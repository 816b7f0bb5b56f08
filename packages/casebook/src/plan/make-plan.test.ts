import { assert, integer, property } from 'fast-check'
import { describe, expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { grid } from '../building/marram-house.fixture.ts'
import type { WaterSystem } from '../building/water-system.ts'
import { PROCEDURES } from '../procedures/procedures.ts'
import { fitPlan, makePlan, preparePlan } from './make-plan.ts'
import { marramInput, marramSystem } from './marram-plan.fixture.ts'
import { type Plan, planSchema } from './plan-file.ts'

const reasonsAt = (plan: Plan, component: string): string[] =>
  plan.stops.find((stop) => stop.component === component)?.reasons.map(({ obligation }) => obligation) ?? []
const chance = (plan: Plan, id: string): number =>
  plan.scenarios.find((one) => one.id === id)?.detectionProbability ?? -1
const points = (plan: Plan): string[] => plan.stops.flatMap(({ component }) => component ?? [])

describe('what is in a plan', () => {
  const plan = makePlan(marramInput())

  test('[PLN1] entry, every heater and every return are in', () => {
    expect(reasonsAt(plan, 'entry')).toContain('entry')
    for (const heater of ['heater-1', 'heater-2']) expect(reasonsAt(plan, heater)).toContain('heater')
    for (const riser of ['a', 'b', 'c', 'd']) expect(reasonsAt(plan, `return-main-${riser}`)).toContain('return')
  })

  test('[PLN2] nearest and farthest outlet of every riser are in', () => {
    for (const obligation of ['nearest outlet', 'farthest outlet']) {
      const risers = plan.stops
        .filter(({ reasons }) => reasons.some((one) => one.obligation === obligation))
        .map(({ riser }) => riser)
      expect([...new Set(risers)].sort(), obligation).toEqual(['A', 'B', 'C', 'D'])
    }
  })

  test('[PLN3] outlets the cases used are in, with the entry or code as evidence; a place not found is said', () => {
    const shower = plan.stops.find(({ component }) => component === 'shower-c605')
    expect(shower?.reasons[0]).toMatchObject({ obligation: 'case exposure', evidence: ['e-1'] })
    expect(points(plan)).not.toContain('basin-tap-c605')
    expect(points(plan)).toEqual(expect.arrayContaining(['shower-c505', 'basin-tap-c505', 'kitchen-tap-c505']))
    expect(plan.notes?.join(' ')).toContain('"Swimming bath" (MH-03)')
  })

  test('[PLN4] unused outlets, devices and points near recent works are in; what the sweep left open is said', () => {
    expect(reasonsAt(plan, 'kitchen-tap-d307')).toEqual(expect.arrayContaining(['low use', 'dead leg']))
    expect(reasonsAt(plan, 'ice-machine-a101')).toContain('device')
    expect(
      plan.stops.some(
        ({ floor, riser, reasons }) =>
          floor === 3 && riser === 'B' && reasons.some(({ obligation }) => obligation === 'recent works'),
      ),
    ).toBe(true)
    expect(plan.notes?.join(' ')).toContain('spa pool')
    expect(plan.notes?.join(' ')).toContain('“Humidifier or air washer” at laundry')
  })

  test('[PLN5] one stop a component, with all its reasons', () => {
    expect(new Set(points(plan)).size).toBe(points(plan).length)
    expect(reasonsAt(plan, 'kitchen-tap-d307').length).toBeGreaterThan(1)
  })

  test('[PLN6] a blank for every 20 samples begun, at least one, and a duplicate for every 20 to the nearest', () => {
    const kinds = plan.stops.flatMap(({ samples }) => samples.map(({ sampleKind }) => sampleKind))
    const others = kinds.filter((kind) => !['field-blank', 'duplicate', 'readings-only'].includes(kind)).length
    expect(kinds.filter((kind) => kind === 'field-blank')).toHaveLength(Math.ceil(others / 20))
    expect(kinds.filter((kind) => kind === 'duplicate')).toHaveLength(Math.round(others / 20))
    const small = makePlan(marramInput({ budget: { samples: 6 } })).stops.flatMap(({ samples }) =>
      samples.map(({ sampleKind }) => sampleKind),
    )
    expect(small).toContain('field-blank')
    const tiny = makePlan(marramInput({ budget: { samples: 4 } }))
    expect(tiny.totals).toMatchObject({ samples: 4, outlets: 2 })
    expect(tiny.notes?.join(' ')).toContain('no room for a field blank')
  })

  test('[PLN7] the supply is first, heaters and returns come after every first flush, floors go upwards', () => {
    const at = (fits: (stop: Plan['stops'][number]) => boolean): number[] =>
      plan.stops.flatMap((stop, index) => (fits(stop) ? [index] : []))
    const flushes = at(({ samples }) => samples.some(({ sampleKind }) => sampleKind === 'first-flush-swab'))
    const hotPlant = at(({ samples }) =>
      samples.some(({ sampleKind }) => sampleKind === 'heater-drain' || sampleKind === 'return-line'),
    )
    expect(plan.stops[0]?.component).toBe('entry')
    expect(Math.min(...hotPlant)).toBeGreaterThan(Math.max(...flushes))
    const floors = flushes.map((index) => plan.stops[index]?.floor ?? 0)
    expect(floors).toEqual(floors.toSorted((a, b) => a - b))
  })

  test('[PLN7] at a stop the swab with first flush comes before the litre', () => {
    const orders = plan.stops
      .map(({ samples }) => samples.map(({ sampleKind }) => sampleKind))
      .filter((kinds) => kinds.includes('first-flush-swab'))
    expect(orders.length).toBeGreaterThan(5)
    for (const kinds of orders) expect(kinds[0]).toBe('first-flush-swab')
  })

  test('every stop names a procedure that exists, and the plan fits its schema', () => {
    expect(planSchema.safeParse(plan).success).toBe(true)
    const ids = new Set(PROCEDURES.map(({ id }) => id))
    for (const { samples } of plan.stops) for (const { procedure } of samples) expect(ids).toContain(procedure)
  })
})

describe('what a short budget does', () => {
  test('[PLN8] the least obligatory goes first, and each point left out says what it costs', () => {
    const plan = makePlan(marramInput({ budget: { samples: 24 } }))
    const kept = plan.stops.filter(({ component }) => component !== undefined).map(({ rank }) => rank)
    const left = plan.leftOut.map(({ stop }) => stop.rank)
    expect(left.length).toBeGreaterThan(3)
    expect(Math.max(...kept)).toBeLessThanOrEqual(Math.min(...left))
    expect(plan.totals.samples).toBeLessThanOrEqual(24)
    for (const { cost } of plan.leftOut) expect(cost).toMatch(/unseen|Nothing tells|fewer/)
    expect(plan.leftOut.some(({ cost }) => /\d+ % without it, \d+(\.\d)? % with it/.test(cost))).toBe(true)
  })

  test('[PLN8] hours and teams bound the plan as samples do', () => {
    const plan = makePlan(marramInput({ budget: { samples: 500, hours: 2, teams: 2 } }))
    expect(plan.totals.hoursPerTeam).toBeLessThanOrEqual(2)
    expect(makePlan(marramInput({ budget: { samples: 500, hours: 2, teams: 3 } })).stops.length).toBeGreaterThan(
      plan.stops.length,
    )
  })

  test('[PLN9] a larger budget keeps every point and never lowers a chance to detect', () => {
    const prepared = preparePlan(marramInput())
    let before = fitPlan(prepared, { samples: 0 })
    for (let samples = 1; samples <= 220; samples++) {
      const plan = fitPlan(prepared, { samples })
      expect(points(plan)).toEqual(expect.arrayContaining(points(before)))
      for (const { id } of plan.scenarios)
        expect(chance(plan, id), `${id} at ${samples}`).toBeGreaterThanOrEqual(chance(before, id) - 1e-12)
      before = plan
    }
    expect(before.leftOut).toEqual([])
    expect(chance(before, 'one-riser')).toBeGreaterThan(0.999)
  })

  test('[PLN10] a point taken out is left out with its reason, and a point asked for is in with its own', () => {
    const plan = makePlan(
      marramInput({
        exclude: [{ component: 'heater-2', text: 'shut down since May' }],
        asked: [{ component: 'basin-tap-b203', text: 'complaint of lukewarm water' }],
      }),
    )
    expect(points(plan)).not.toContain('heater-2')
    expect(plan.leftOut.find(({ stop }) => stop.component === 'heater-2')?.cost).toContain('shut down since May')
    expect(plan.stops.find(({ component }) => component === 'basin-tap-b203')?.reasons[0]?.text).toBe(
      'complaint of lukewarm water',
    )
  })

  test('what the next points bring adds up to the plan that has them', () => {
    const prepared = preparePlan(marramInput())
    const plan = fitPlan(prepared, { samples: 24 })
    const larger = fitPlan(prepared, { samples: 36 })
    const added = (plan.added ?? []).slice(0, points(larger).length - points(plan).length)
    for (const { id } of plan.scenarios) {
      const sum = added.reduce((all, { gains }) => all + (gains[id] ?? 0), chance(plan, id))
      expect(sum).toBeCloseTo(chance(larger, id), 9)
    }
  })
})

describe('invariance', () => {
  test('[PLN11] another order of the file and other ids give the same points', () => {
    const where = (plan: Plan, system: WaterSystem): string[] =>
      points(plan)
        .flatMap((id) => system.components.find((one) => one.id === id) ?? [])
        .map(({ kind, floor, riser, room, label }) => [kind, floor, riser, room, label].join('/'))
        .sort()
    const system = marramSystem()
    const wanted = where(makePlan(marramInput({ history: [], sweep: [] })), system)
    assert(
      property(integer({ min: 1, max: 1e6 }), (seed) => {
        const other = renamed(system, seed)
        expect(where(makePlan(marramInput({ system: other, history: [], sweep: [] })), other)).toEqual(wanted)
      }),
      { numRuns: 12 },
    )
  })
})

/** The same building with its lists shuffled and every id replaced. */
function renamed(system: WaterSystem, seed: number): WaterSystem {
  let state = seed
  const random = (): number => {
    state = (state * 48271) % 2147483647
    return state
  }
  const shuffled = <T>(row: readonly T[]): T[] =>
    row
      .map((one) => ({ one, key: random() }))
      .sort((a, b) => a.key - b.key)
      .map(({ one }) => one)
  const name = new Map(system.components.map(({ id }) => [id, `n${random()}`]))
  const to = (id: string): string => name.get(id) ?? id
  return {
    ...system,
    components: shuffled(system.components.map((one) => ({ ...one, id: to(one.id) }))),
    pipes: shuffled(system.pipes.map((one) => ({ ...one, from: to(one.from), to: to(one.to) }))),
  }
}

test('2,000 outlets are planned like ten', () => {
  const system = buildSystem(grid({ floors: 20, risers: 20, each: 5 }))
  const plan = makePlan({ system, procedures: PROCEDURES, budget: { samples: 400 } })
  expect(plan.totals.outlets).toBeGreaterThan(100)
})

test('a system without outlets or heaters gives an empty walk and says so', () => {
  const system: WaterSystem = { ...marramSystem(), components: [], pipes: [] }
  const plan = makePlan({ system, procedures: PROCEDURES, budget: { samples: 10 } })
  expect(plan.stops).toEqual([])
  expect(plan.couldHide[0]).toContain('no outlet yet')
})
