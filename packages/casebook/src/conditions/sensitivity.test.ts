import { expect, test } from 'vitest'
import type { WaterSystem } from '../building/water-system.ts'
import { conditionsByHand } from './conditions.fixture.ts'
import { soundBuilding } from './known-cause.fixture.ts'
import type { Conditions } from './conditions.ts'
import { simulateConditions } from './simulate-conditions.ts'
import { OUTPUTS } from './sensitivity-outputs.ts'
import { outputsOf, plannedRuns, runSensitivity, sensitivityOf } from './sensitivity.ts'

/** The sound building with its air and its decay not described, and the insulation of its hot riser guessed. */
function unsure(): WaterSystem {
  const { ambientC: _air, decay: _decay, pipes, ...rest } = soundBuilding()
  return {
    ...rest,
    pipes: pipes.map((pipe) => (pipe.id === 'hot-riser' ? { ...pipe, provenance: { insulationMm: 'guessed' } } : pipe)),
  }
}
function conditionsOf(system: WaterSystem): Conditions {
  const answer = simulateConditions(system)
  if (answer.kind === 'cannot-say') throw new TypeError(JSON.stringify(answer.reasons))
  return answer.conditions
}

test('[SEN1] every input with a range is run at both ends, one at a time, on top of what was set already', () => {
  const system = unsure()
  const conditions = conditionsOf(system)
  const base = { ambientShiftK: 1, assumed: { fittingLossPerM: 0.4 } }
  const runs = plannedRuns(conditions, base)
  const ranged = conditions.assumptions.filter(({ range }) => range !== undefined)
  expect(new Set(runs.map(({ input }) => input))).toEqual(new Set(ranged.map(({ id }) => id)))
  for (const { id, range, value } of ranged) {
    const ends = runs.filter(({ input }) => input === id).map((run) => run.value)
    expect(ends).toEqual([range?.lower, range?.upper].filter((end) => end !== value))
  }
  const air = runs.find(({ input, end }) => input === 'ambientC' && end === 'upper')
  expect(air?.overrides).toMatchObject({ ambientShiftK: 1, assumed: { fittingLossPerM: 0.4, ambientC: air?.value } })
  expect(Object.keys(air?.overrides.assumed ?? {})).toHaveLength(2)
})

test('[SEN1] the use of all outlets is one input', () => {
  const use = (id: string) => ({
    id,
    text: id,
    value: 1,
    unit: 'times',
    range: { lower: 0.5, upper: 2 },
    count: 1,
    parts: [],
    source: '',
  })
  const conditions = { ...conditionsByHand(soundBuilding()), assumptions: [use('use:shower'), use('guessed:use:bath')] }
  expect(plannedRuns(conditions).map(({ input, overrides }) => [input, overrides.assumed])).toEqual([
    ['use', { 'use:shower': 0.5, 'guessed:use:bath': 0.5 }],
    ['use', { 'use:shower': 2, 'guessed:use:bath': 2 }],
  ])
})

test('[SEN2] effects go the way the physics says, the largest first; what does not matter has none', () => {
  const system = unsure()
  const conditions = conditionsOf(system)
  const told: number[] = []
  const { effects, inputs, failed, baseline } = runSensitivity({
    system,
    conditions,
    progress: (done) => void told.push(done),
  })
  expect(failed).toEqual([])
  const of = (output: (typeof OUTPUTS)[number], input: string) => effects[output].find((one) => one.input === input)
  // warmer air: warmer cold water, and hot water that loses less
  const air = of('cold-warmest', 'ambientC')
  expect(air?.atLower).toBeLessThan(air?.baseline ?? 0)
  expect(air?.atUpper).toBeGreaterThan(air?.baseline ?? 0)
  // faster decay: less residual; a decay of the residual warms nothing
  const decay = of('residual-mean', 'wallMPerHour')
  expect(decay?.atUpper).toBeLessThan(decay?.atLower ?? 0)
  // (but for rounding: which parcels are one water goes by the residual too)
  expect(of('cold-mean', 'wallMPerHour')?.spread).toBeLessThan(1e-9)
  // thicker insulation of the hot riser: hotter water at the tap
  const lagging = of('hot-mean', 'guessed:insulationMm')
  expect(lagging?.atLower).toBeLessThan(lagging?.baseline ?? 0)
  for (const output of OUTPUTS) {
    const spreads = effects[output].map(({ spread }) => spread)
    expect(spreads).toEqual(spreads.toSorted((a, b) => b - a))
  }
  expect(effects['cold-warmest'][0]?.input).toBe('ambientC')
  expect(inputs[0]?.share).toBe(1)
  expect(baseline).toEqual(outputsOf({ system, conditions }))
  expect(told[0]).toBe(0)
  expect(told.at(-1)).toBe(1)
}, 60_000)

test('[SEN2] figures are the mean over outlets and the worst place, age without what never moves', () => {
  const system = soundBuilding()
  const conditions = conditionsByHand(system, {
    'tap/hot': { temperatureC: [40, 20, 60], ageHours: 720, neverMoves: true, growth: 0.6, residualMgPerL: 0 },
    'tap/cold': { temperatureC: 18, ageHours: 5, growth: 0.2, residualMgPerL: 0.5 },
  })
  expect(outputsOf({ system, conditions })).toEqual({
    'hot-mean': 40,
    'hot-coolest': 40,
    'cold-mean': 18,
    'cold-warmest': 18,
    'age-mean': 5,
    'age-oldest': 5,
    'residual-mean': 0.25,
    'residual-least': 0,
    'growth-mean': 0.4,
    'growth-most': 0.6,
  })
})

test('[SEN3] a run that gives nothing is told with its reason, and the others count', () => {
  const conditions = {
    ...conditionsByHand(soundBuilding()),
    assumptions: conditionsByHand(soundBuilding()).assumptions,
  }
  const runs = plannedRuns(conditions)
  const [first, second] = runs
  if (first === undefined || second === undefined) throw new TypeError('no runs')
  const reasons = [{ at: 'x', why: 'too warm', needs: 'less' }]
  const told = sensitivityOf({ 'cold-mean': 16 }, [
    { run: first, figures: { 'cold-mean': 15 } },
    { run: second, figures: undefined, reasons },
  ])
  expect(told.failed).toEqual([{ run: second, reasons }])
  expect(told.effects['cold-mean']).toMatchObject([{ input: 'ambientC', atLower: 15, atUpper: undefined, spread: 1 }])
})
