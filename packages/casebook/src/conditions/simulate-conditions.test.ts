import { readFileSync } from 'node:fs'
import { pipeHeatLoss } from '@rillmark/science/heat/pipe-heat-loss.ts'
import { mixedTemperature } from '@rillmark/science/heat/mixed-temperature.ts'
import { waterDensityKgPerM3, waterHeatCapacityJPerKgK } from '@rillmark/science/water/liquid-water.ts'
import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import type { WaterSystem } from '../building/water-system.ts'
import type { Conditions } from './conditions.ts'
import { conditionsSchema } from './conditions-schema.ts'
import { type ConditionsOptions, simulateConditions } from './simulate-conditions.ts'
import {
  ALWAYS,
  part,
  pipe,
  pumped,
  pushed,
  straight,
  systemOf,
  tempered,
  twoReturns,
} from './small-systems.fixture.ts'

function conditionsOf(system: WaterSystem, options: ConditionsOptions = {}): Conditions {
  const answer = simulateConditions(system, options)
  if (answer.kind === 'cannot-say') throw new Error(JSON.stringify(answer.reasons))
  return answer.conditions
}

const at = ({ components }: Conditions, id: string) => {
  const found = components[id]
  if (found === undefined) throw new Error(`no component ${id}`)
  return found
}
const along = ({ pipes }: Conditions, id: string) => {
  const found = pipes[id]
  if (found === undefined) throw new Error(`no pipe ${id}`)
  return found
}

const twoRiser = JSON.parse(
  readFileSync(new URL('../../../../docs/examples/two-riser.json', import.meta.url), 'utf8'),
) as WaterSystem

test('[SIM7] the two-riser example: every component and pipe, each outlet with the sides it has', () => {
  const conditions = conditionsOf(twoRiser)
  expect(Object.keys(conditions.components)).toEqual(twoRiser.components.map(({ id }) => id))
  expect(Object.keys(conditions.pipes)).toEqual(twoRiser.pipes.map(({ id }) => id))
  expect(Object.keys(at(conditions, 'shower-101').circuits ?? {}).sort()).toEqual(['cold', 'hot'])
  expect(at(conditions, 'heater').circuits).toBeUndefined()
  expect(at(conditions, 'store-tap')).toMatchObject({ neverMoves: true, longestStagnationHours: 24, drawnLPerDay: 0 })
  // 2 showers of 6 min at 9 L/min
  expect(at(conditions, 'shower-101').drawnLPerDay).toBeCloseTo(108, 6)
  expect(conditions.balance.massErrorFraction).toBeLessThan(0.001)
  expect(conditions.balance.energyErrorFraction).toBeLessThan(0.001)
  expect(conditions.repeats).toBe(true)
})

test('[SIM13] an answer is as its schema says', () => {
  for (const system of [twoRiser, tempered('heater'), pumped()]) {
    const read = conditionsSchema.safeParse(JSON.parse(JSON.stringify(conditionsOf(system))))
    expect(read.error?.issues ?? []).toEqual([])
  }
})

test('[SIM5] the same seed gives the same answer, another seed other times of use', () => {
  const system = buildSystem({ ...marramHouse, floors: 2, risers: 2 })
  const once = conditionsOf(system, { seed: 7 })
  expect(conditionsOf(system, { seed: 7 })).toEqual(once)
  const other = conditionsOf(system, { seed: 8 })
  expect(other.seed).toBe(8)
  expect(other.components).not.toEqual(once.components)
})

test('[SIM5] neither the order of the lists nor the way a pipe is drawn changes the water, only the sign of a flow', () => {
  const usual = conditionsOf(twoRiser)
  const turned: WaterSystem = {
    ...twoRiser,
    components: twoRiser.components.toReversed(),
    pipes: twoRiser.pipes.toReversed().map((one) => ({ ...one, from: one.to, to: one.from })),
  }
  const same = conditionsOf(turned)
  for (const { id } of twoRiser.components) {
    expect(at(same, id).temperatureC.mean, id).toBeCloseTo(at(usual, id).temperatureC.mean, 1)
    expect(at(same, id).growthIndex, id).toBeCloseTo(at(usual, id).growthIndex, 2)
  }
  for (const { id } of twoRiser.pipes) {
    expect(along(same, id).flowLPerMin.mean, id).toBeCloseTo(-along(usual, id).flowLPerMin.mean, 3)
    expect(along(same, id).end.temperatureC.mean, id).toBeCloseTo(along(usual, id).end.temperatureC.mean, 1)
  }
})

test('[SIM5] neither a pipe described in two pieces nor other ids change the water', () => {
  const system = twoReturns()
  const usual = conditionsOf(system)
  const pieces = [pipe('hot main>half', { lengthM: 4 }), pipe('hot half>top-a', { lengthM: 6 })]
  const split = {
    ...system,
    components: [...system.components, part('half junction')],
    pipes: [...system.pipes.filter(({ id }) => id !== 'hot main>top-a'), ...pieces],
  }
  const renamed = JSON.parse(JSON.stringify(system).replaceAll(/"(id|from|to)":"/g, '"$1":"other ')) as WaterSystem
  const [inTwo, named] = [conditionsOf(split), conditionsOf(renamed)]
  for (const { id } of system.components)
    for (const other of [at(inTwo, id), at(named, `other ${id}`)]) {
      expect(other.temperatureC.mean, id).toBeCloseTo(at(usual, id).temperatureC.mean, 1)
      expect(other.ageHours.mean, id).toBeCloseTo(at(usual, id).ageHours.mean, 2)
      expect(other.residualMgPerL.mean, id).toBeCloseTo(at(usual, id).residualMgPerL.mean, 3)
    }
})

// T = Ta + (T0 − Ta) e^(−U L / (m cp)): cooling of moving water, any textbook of heat transfer. U of the pipe-heat-loss calculation.
test.each([0.5, 1, 4])('[SIM6] water cools along a pipe as the closed form says, at %d L/min', (flowLPerMin) => {
  const conditions = conditionsOf(straight({ lengthM: 20 }, flowLPerMin))
  const build = { outsideDiameterMm: 22, wallMm: 1, material: 'copper', surfaceEmissivity: 0.9 }
  const wrapped = { ...build, insulationMm: 13, insulationConductivityWPerMK: 0.04 }
  const { overallWPerMK } = pipeHeatLoss({ ...wrapped, waterC: 58, ambientC: 22 })
  const heatWPerK = (flowLPerMin / 60_000) * waterDensityKgPerM3(59) * waterHeatCapacityJPerKgK(59)
  const wanted = 22 + (60 - 22) * Math.exp((-overallWPerMK * 20) / heatWPerK)
  // the loss coefficient is taken at 40 K and changes by a percent along the pipe
  expect(at(conditions, 'tap').temperatureC.mean).toBeCloseTo(wanted, flowLPerMin === 0.5 ? 0 : 1)
  // 20 m of 20 mm bore hold 6.283 L, 10 m before the heater 3.142 L: age is volume by flow
  expect(at(conditions, 'tap').ageHours.mean).toBeCloseTo(9.4248 / flowLPerMin / 60, 2)
})

// the rule of mixtures: mixed-temperature calculation
test('[SIM7] a spout gives the mixture that was asked for, its sides what arrives', () => {
  const use = { pattern: 'constant', flowLPerMin: 6, mixToC: 38 } as const
  const system = systemOf(
    [part('entry supply-entry'), part('heater instant-heater', { setpointC: 60 }), part('shower shower', { use })],
    [pipe('cold entry>heater'), pipe('cold entry>shower'), pipe('hot heater>shower')],
  )
  const conditions = conditionsOf(system)
  const { temperatureC, circuits } = at(conditions, 'shower')
  // the mixer is set by the water about to arrive, a few tenths of a kelvin off what does
  expect(temperatureC.mean).toBeCloseTo(38, 0)
  const [hotC, coldC] = [circuits?.hot?.temperatureC.mean ?? 0, circuits?.cold?.temperatureC.mean ?? 0]
  const hotFlowLPerMin = along(conditions, 'hot heater>shower').flowLPerMin.mean
  const coldFlowLPerMin = along(conditions, 'cold entry>shower').flowLPerMin.mean
  expect(mixedTemperature({ hotC, coldC, hotFlowLPerMin, coldFlowLPerMin }).temperatureC).toBeCloseTo(38, 0)
  expect(hotFlowLPerMin + coldFlowLPerMin).toBeCloseTo(6, 3)
})

test('[SIM7] standing and growth of an outlet are the worst of its sides; nothing drawn leaves the sides alone', () => {
  const { components } = conditionsOf(buildSystem({ ...marramHouse, floors: 2, risers: 2 }))
  let outlets = 0
  for (const one of Object.values(components)) {
    if (one.drawnLPerDay === undefined) continue
    const sides = Object.values(one.circuits ?? {}).filter((side) => side !== undefined)
    const most = (pick: (side: (typeof sides)[number]) => number): number => Math.max(...sides.map(pick))
    expect(one.growthIndex).toBe(most((side) => side.growthIndex))
    expect(one.hoursInGrowthBand).toBe(most((side) => side.hoursInGrowthBand))
    expect(one.longestStagnationHours).toBe(most((side) => side.longestStagnationHours))
    outlets++
  }
  expect(outlets).toBeGreaterThan(10)
})

test('[SIM9] without a described residual none is claimed', () => {
  const system = straight()
  const unknown = { ...system, supply: { ...system.supply, disinfectant: { kind: 'free-chlorine' as const } } }
  const conditions = conditionsOf(unknown)
  expect(conditions.residualUnknown).toBe(true)
  expect(conditions.cannotSay.map(({ at: where }) => where)).toContain('supply.disinfectant.residualMgPerL')
  expect(conditionsOf(system).residualUnknown).toBeUndefined()
})

test.each(['heater', 'valve'] as const)(
  '[SIM10] tempered water goes round by day and night, back to the %s, and warms no cold pipe',
  (returnTo) => {
    const conditions = conditionsOf(tempered(returnTo))
    // the only draw is 10 min at 07:00; cold pipes stand at the air's 22 °C or carry 14 °C
    expect(at(conditions, 'cold-plant').temperatureC.max).toBeLessThan(22.1)
    expect(at(conditions, 'cold-tap').temperatureC.max).toBeLessThan(22.1)
    expect(along(conditions, `hot-return top>${returnTo}`).flowLPerMin.mean).toBeCloseTo(4, 6)
    // were it not fed with hot water at night, it would be at the air's 22 °C by the morning
    expect(at(conditions, 'top').temperatureC.mean).toBeGreaterThan(41)
    expect(at(conditions, 'valve').temperatureC.mean).toBeGreaterThan(42)
    expect(conditions.balance.energyErrorFraction).toBeLessThan(0.001)
  },
)

test('[SIM2] a pump decides the flows where none is described: the shorter way gets more', () => {
  const conditions = conditionsOf(pumped())
  const [a, b] = ['a', 'b'].map((riser) => along(conditions, `hot-return top-${riser}>meet`).flowLPerMin.mean)
  expect(a).toBeCloseTo(b ?? 0, 3)
  expect(a).toBeGreaterThan(1)
  const longer = pumped()
  const system = { ...longer, pipes: longer.pipes.map((one) => (one.from === 'top-b' ? { ...one, lengthM: 60 } : one)) }
  const uneven = conditionsOf(system)
  expect(along(uneven, 'hot-return top-a>meet').flowLPerMin.mean).toBeGreaterThan(
    1.5 * along(uneven, 'hot-return top-b>meet').flowLPerMin.mean,
  )
})

test('[SIM2] a pump on the hot side sends hot water round', () => {
  const conditions = conditionsOf(pushed())
  expect(along(conditions, 'hot main>push').flowLPerMin.mean).toBeLessThan(-2)
  for (const id of ['main', 'top-a', 'top-b', 'meet'])
    expect(at(conditions, id).temperatureC.mean, id).toBeGreaterThan(58)
  expect(conditions.balance.energyErrorFraction).toBeLessThan(0.001)
})

test('[SIM11] a ring main is fed from both sides', () => {
  const system = systemOf(
    [
      part('entry supply-entry'),
      part('left junction'),
      part('right junction'),
      part('far hose-tap', { use: ALWAYS(4) }),
    ],
    [pipe('cold entry>left'), pipe('cold entry>right'), pipe('cold left>far'), pipe('cold right>far', { lengthM: 40 })],
  )
  const conditions = conditionsOf(system)
  const [near, long] = ['cold left>far', 'cold right>far'].map((id) => along(conditions, id).flowLPerMin.mean)
  expect((near ?? 0) + (long ?? 0)).toBeCloseTo(4, 3)
  // 20 m against 50 m in turbulent flow: head goes with flow^1.75, so the long side carries 2.5^(1/1.75) = 1.69 times less
  expect((near ?? 0) / (long ?? 1)).toBeGreaterThan(1.4)
  expect((near ?? 0) / (long ?? 1)).toBeLessThan(2.6)
})

test('[SIM8] a stopped return cools, a warmer shaft warms cold water, as they must', () => {
  const usual = conditionsOf(twoReturns())
  const stopped = conditionsOf(twoReturns(), { overrides: { closedPipes: ['hot-return top-b>meet'] } })
  expect(at(stopped, 'top-b').temperatureC.mean).toBeLessThan(at(usual, 'top-b').temperatureC.mean - 1)
  expect(at(stopped, 'top-a').temperatureC.mean).toBeCloseTo(at(usual, 'top-a').temperatureC.mean, 0)
  const warm = conditionsOf(twoReturns(), { overrides: { ambientShiftK: 6 } })
  expect(along(warm, 'cold entry>heater').end.temperatureC.mean).toBeGreaterThan(
    along(usual, 'cold entry>heater').end.temperatureC.mean,
  )
})

test('[SIM1] a description that cannot be is answered with reasons and nothing else', () => {
  const answer = simulateConditions(straight({ lengthM: -1 }))
  const wanted = { at: 'pipes.1.lengthM', why: 'received -1', needs: 'more than 0' }
  expect(answer).toEqual({ kind: 'cannot-say', reasons: expect.arrayContaining([wanted]) })
})

test('[SIM2] a closed pipe that leaves a draw without water is a reason, not a failure', () => {
  const answer = simulateConditions(twoReturns(), { overrides: { closedPipes: ['cold entry>heater'] } })
  expect(answer).toMatchObject({ kind: 'cannot-say', reasons: [{ at: 'pipes', needs: 'flows that can be' }] })
})

test('[SIM14] curves have a row for each component and pipe, and progress is told until a throw stops it', () => {
  const told: number[] = []
  const answer = simulateConditions(twoRiser, { slots: 24, progress: (fraction) => void told.push(fraction) })
  if (answer.kind !== 'conditions' || answer.series === undefined) throw new Error('no curves')
  const { series, conditions } = answer
  expect(series.componentIds).toEqual(twoRiser.components.map(({ id }) => id))
  expect(series.pipeIds).toEqual(twoRiser.pipes.map(({ id }) => id))
  const row = series.pipeIds.indexOf('r1')
  expect([...series.pipes.flowLPerMin.subarray(row * 24, (row + 1) * 24)]).toEqual(Array.from({ length: 24 }, () => 4))
  const heater = series.componentIds.indexOf('heater')
  const mean = series.components.temperatureC.subarray(heater * 24, (heater + 1) * 24).reduce((a, b) => a + b, 0) / 24
  expect(mean).toBeCloseTo(conditions.components['heater']?.temperatureC.mean ?? 0, 1)
  expect(told.length).toBeGreaterThan(3)
  expect(told.every((fraction) => fraction >= 0 && fraction <= 1)).toBe(true)
  const stop = (): void => {
    throw new Error('stopped')
  }
  expect(() => simulateConditions(twoRiser, { progress: stop })).toThrow('stopped')
})
