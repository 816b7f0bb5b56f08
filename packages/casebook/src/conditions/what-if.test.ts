import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import { compareConditions, type Counted, type Comparison } from './compare-conditions.ts'
import { soundBuilding, type Wrong } from './known-cause.fixture.ts'
import { conditionsByHand } from './conditions.fixture.ts'
import { simulateConditions } from './simulate-conditions.ts'
import { applyWhatIf, type WhatIfChange, whatIfChangeSchema } from './what-if.ts'
import { US_UNITS } from '../units/display-units.ts'

const marram = buildSystem(marramHouse)

function changed(system = marram, ...changes: WhatIfChange[]) {
  const answer = applyWhatIf(
    system,
    changes.map((one) => whatIfChangeSchema.parse(one)),
  )
  if (answer.kind === 'issues') throw new TypeError(JSON.stringify(answer.issues))
  return answer
}

test('[WIF1] a change is made to the parts it names and to nothing else; what was described stays as it is', () => {
  const kept = JSON.stringify(marram)
  const set = changed(marram, { change: 'set-point', component: 'heater-1', setpointC: 65 }).system
  expect(set.components.find(({ id }) => id === 'heater-1')?.setpointC).toBe(65)
  const others = (system: typeof marram) => system.components.filter(({ id }) => id !== 'heater-1')
  expect(others(set)).toEqual(others(marram))
  expect(set.pipes).toEqual(marram.pipes)
  const cold = changed(marram, { change: 'insulation', of: { circuit: 'cold' }, insulationMm: 9 }).system
  for (const { circuit, insulationMm } of cold.pipes) expect(insulationMm === 9).toBe(circuit === 'cold')
  const unused = changed(marram, { change: 'use', outlet: 'shower-c605', use: { as: 'unused' } }).system
  expect(unused.components.find(({ id }) => id === 'shower-c605')?.use).toEqual({ pattern: 'unused' })
  const busy = changed(marram, { change: 'use', outlet: 'shower-c605', use: { as: 'used', eventsPerDay: 9 } }).system
  expect(busy.components.find(({ id }) => id === 'shower-c605')?.use).toMatchObject({
    pattern: 'pulses',
    eventsPerDay: 9,
  })
  expect(JSON.stringify(marram)).toBe(kept)
})

test('[WIF1] the flow of a return is set where it is described; 0 closes it, which no description can say', () => {
  const id = 'hot-return-hot-c-f6-to-return-main-c'
  const more = changed(marram, { change: 'loop-flow', pipe: id, flowLPerMin: 6 })
  expect(more.system.pipes.find((pipe) => pipe.id === id)?.recirculationLPerMin).toBe(6)
  expect(more.overrides).toEqual({})
  const none = changed(marram, { change: 'loop-flow', pipe: id, flowLPerMin: 0 })
  expect(none.system).toEqual(marram)
  expect(none.overrides).toEqual({ closedPipes: [id] })
})

test('[WIF1] a dead leg goes with its pipes and what hangs on it alone, step by step after a tap was given up', () => {
  const after = changed(
    marram,
    { change: 'use', outlet: 'basin-tap-c606', use: { as: 'unused' } },
    { change: 'remove-dead-leg', part: 'basin-tap-c606' },
  ).system
  expect(after.components.some(({ id }) => id === 'basin-tap-c606')).toBe(false)
  expect(marram.pipes.length - after.pipes.length).toBe(2)
  expect(after.components.length).toBe(marram.components.length - 1)
})

// what is asked | the change | path of the issue
test.each<[string, WhatIfChange, string]>([
  ['a set point of a tap', { change: 'set-point', component: 'shower-c605', setpointC: 60 }, 'changes.0.component'],
  ['a loop that is none', { change: 'loop-flow', pipe: 'hot-hot-c-f5-to-hot-c-f6', flowLPerMin: 3 }, 'changes.0.pipe'],
  ['insulation of no pipe', { change: 'insulation', of: { pipe: 'p' }, insulationMm: 9 }, 'changes.0.of'],
  ['insulation of no circuit', { change: 'insulation', of: { circuit: 'tempered' }, insulationMm: 9 }, 'changes.0.of'],
  ['use of a junction', { change: 'use', outlet: 'hot-c-f5', use: { as: 'unused' } }, 'changes.0.outlet'],
  [
    'flushing of what is used all day',
    { change: 'use', outlet: 'shower-c605', use: { as: 'flushed daily', at: '07:00', minutes: 3, flowLPerMin: 6 } },
    'changes.0.use',
  ],
  ['a dead leg that is none', { change: 'remove-dead-leg', part: 'shower-c605' }, 'changes.0.part'],
])('[WIF2] %s is refused with its place', (_, change, path) => {
  const answer = applyWhatIf(marram, [change])
  expect(answer.kind === 'issues' ? answer.issues.map((one) => one.path) : []).toEqual([path])
})

test('[WIF2] all that speaks against several changes comes at once', () => {
  const answer = applyWhatIf(marram, [
    { change: 'set-point', component: 'nothing', setpointC: 60 },
    { change: 'remove-dead-leg', part: 'nothing' },
  ])
  expect(answer.kind === 'issues' ? answer.issues.map((one) => one.path) : []).toEqual([
    'changes.0.component',
    'changes.1.part',
  ])
})

function compared(wrong: Wrong, ...changes: WhatIfChange[]): Comparison {
  const before = soundBuilding(wrong)
  const { system: after, overrides } = changed(before, ...changes)
  const [was, is] = [simulateConditions(before), simulateConditions(after, { overrides })]
  if (was.kind === 'cannot-say' || is.kind === 'cannot-say') throw new TypeError('no conditions')
  return compareConditions({
    before: { system: before, conditions: was.conditions },
    after: { system: after, conditions: is.conditions },
  })
}
const hot = ({ places }: Comparison) => places.find(({ id, water }) => id === 'tap' && water === 'hot')
const cold = ({ places }: Comparison) => places.find(({ id, water }) => id === 'tap' && water === 'cold')
const countOf = ({ counts }: Comparison, which: Counted) => {
  const { before, after } = counts.find(({ counted }) => counted === which) ?? { before: -1, after: -1 }
  return [before, after]
}
const unused = { components: { tap: { use: { pattern: 'unused' as const } } } }

// The direction of each follows from the physics: hotter storage, less loss, more flow, fresher water.
test('[WIF3] a lower set point makes the hot water cooler and is counted', () => {
  const comparison = compared({}, { change: 'set-point', component: 'heater', setpointC: 48 })
  expect(hot(comparison)?.after?.temperatureC.max).toBeLessThan(48.1)
  expect(countOf(comparison, 'hot-never-hot')).toEqual([0, 1])
})

test('[WIF3] insulation taken off cools the hot water at the tap, and leaves the cold side to its draws', () => {
  const comparison = compared({}, { change: 'insulation', of: { circuit: 'hot' }, insulationMm: 0 })
  const warmer = (of: ReturnType<typeof hot>) =>
    (of?.after?.temperatureC.mean ?? 0) - (of?.before?.temperatureC.mean ?? 0)
  expect(warmer(hot(comparison))).toBeLessThan(-1)
  expect(Math.abs(warmer(cold(comparison)))).toBeLessThan(0.3)
})

test('[WIF3] a loop that is stopped lets the riser stand: hot water is cooler and no younger', () => {
  const comparison = compared({}, { change: 'loop-flow', pipe: 'return', flowLPerMin: 0 })
  expect(hot(comparison)?.after?.temperatureC.mean).toBeLessThan(hot(comparison)?.before?.temperatureC.mean ?? 0)
})

test('[WIF3] a tap flushed daily is renewed each day, a dead leg removed is gone', () => {
  const flushed = compared(unused, {
    change: 'use',
    outlet: 'tap',
    use: { as: 'flushed daily', at: '07:00', minutes: 5, flowLPerMin: 6 },
  })
  expect(cold(flushed)?.before?.neverMoves).toBe(true)
  expect(cold(flushed)?.after?.neverMoves).toBeUndefined()
  expect(cold(flushed)?.after?.ageHours.max).toBeLessThan(30)
  expect(countOf(flushed, 'stands-all-day')).toEqual([1, 0])
  const removed = compared(unused, { change: 'remove-dead-leg', part: 'tap' })
  expect(cold(removed)).toMatchObject({ before: { neverMoves: true }, after: undefined })
  expect(countOf(removed, 'stands-all-day')).toEqual([1, 0])
})

/** 1,001 pipes: with more than 1,000 the mains take steps of five minutes. */
const large = buildSystem({
  name: 'Six risers',
  floors: 9,
  plant: { position: 'bottom' },
  risers: ['A', 'B', 'C', 'D', 'E', 'F'],
  outlets: { 'basin-tap': 8 },
  heaters: [{ kind: 'storage', volumeL: 800, setpointC: 60 }],
  recirculation: 'per-riser',
  mixing: 'none',
  supply: { disinfectant: 'free-chlorine', residualMgPerL: 0.6, temperatureC: 14, pH: 7.6 },
})

test('[WIF4] where dead legs taken out bring a building to fewer pipes, its mains take the steps of the building as it is', () => {
  const { system } = changed(
    large,
    ...['basin-tap-f947', 'basin-tap-f948'].flatMap((tap): WhatIfChange[] => [
      { change: 'use', outlet: tap, use: { as: 'unused' } },
      { change: 'remove-dead-leg', part: tap },
    ]),
  )
  expect([large.pipes.length, system.pipes.length]).toEqual([1001, 997])
  const [was, is] = [simulateConditions(large), simulateConditions(system, { comparedWith: { system: large } })]
  if (was.kind === 'cannot-say' || is.kind === 'cannot-say') throw new TypeError('no conditions')
  const { places } = compareConditions({
    before: { system: large, conditions: was.conditions },
    after: { system, conditions: is.conditions },
  })
  // with steps of its own the warmest water of other risers moved by up to 0.14 K, which two taps of riser F can't do; with the same steps by 0.006 K
  const elsewhere = places.filter(({ id }) => !id.startsWith('basin-tap-f'))
  expect(elsewhere.length).toBeGreaterThan(700)
  for (const { before, after } of elsewhere)
    expect(Math.abs((after?.temperatureC.max ?? Number.NaN) - (before?.temperatureC.max ?? 0))).toBeLessThan(0.02)
  expect(is.conditions.cautions.join()).toContain('as in the larger building this is compared with')
})

test('[WIF4] limits are those asked for, in the reader’s units; different draws are not compared', () => {
  const conditions = conditionsByHand(marram, { 'shower-c605/cold': { temperatureC: [22, 21, 24] } })
  const now = { system: marram, conditions }
  const counts = (limits = {}) =>
    compareConditions({ before: now, after: now }, { limits, units: US_UNITS }).counts.filter(({ counted }) =>
      counted.startsWith('cold'),
    )
  expect(counts().map(({ before }) => before)).toEqual([1, 1])
  expect(counts({ coldBelowC: 25 }).map(({ before }) => before)).toEqual([0, 0])
  expect(counts({ coldBelowC: 25 })[0]?.words).toContain('77 °F')
  const other = { system: marram, conditions: { ...conditions, seed: 2 } }
  expect(() => compareConditions({ before: now, after: other })).toThrow(RangeError)
})
