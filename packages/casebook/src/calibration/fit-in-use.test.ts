import { expect, test } from 'vitest'
import { removalOf } from '../building/remove-part.ts'
import { latestPrediction } from '../conditions/latest-prediction.ts'
import { conditionsByHand } from '../conditions/conditions.fixture.ts'
import { predictionOf } from '../conditions/prediction-of.ts'
import { simulateConditions } from '../conditions/simulate-conditions.ts'
import type { Entry } from '../entry/entry.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import type { AcceptedFit } from './accepted-fit.ts'
import { acceptedFitOf } from './accepted-fit-of.ts'
import { fitInUse, fittedOverrides, latestFit } from './fit-in-use.ts'
import { fittedBuilding, KNOWN_FAULTS } from './known-faults.fixture.ts'
import { threeTaps } from './small-buildings.fixture.ts'

const { make } = entryMaker('three-taps')
const described = make('building.described', { source: 'file', system: threeTaps })
const read = make('reading.taken', {
  round: 'R1',
  stop: 'S1',
  component: 'heater-1',
  quantity: 'hot-temperature',
  reading: { kind: 'value', value: 57, unit: 'Cel' },
})
const { found } = fittedBuilding(threeTaps, { truly: { setpointC: { 'heater-1': 57 } }, seed: 5 })
const body = acceptedFitOf({ found, systemEntry: described.id, round: 'R1', seed: 1 })
const accepted = make('fit.accepted', body)
const pathsOf = (entries: readonly Entry[], candidate: unknown) => {
  const checked = checkEntry(derive('three-taps', entries), candidate)
  return checked.ok ? [] : [...new Set(checked.issues.map(({ path }) => path))]
}
const stateOf = (...entries: readonly Entry[]) => derive('three-taps', entries)
const predictionWith = (fit: string | undefined) =>
  make(
    'prediction.recorded',
    predictionOf({ system: threeTaps, systemEntry: described.id, conditions: conditionsByHand(threeTaps), fit }),
  )

test('[CLB15] a fit taken over names the building as it stands, a round that was read, and inputs and reasons there are', () => {
  expect(pathsOf([described, read], accepted)).toEqual([])
  expect(pathsOf([read], accepted)).toContain('body.system')
  expect(pathsOf([described], accepted)).toEqual(['body.round'])
  const edited = make('building.edited', { changes: [{ change: 'set-name', name: 'Other' }] })
  expect(pathsOf([described, read, edited], accepted)).toEqual(['body.system'])
  const [first, ...rest] = body.inputs
  if (first === undefined) throw new TypeError('no inputs')
  const nowhere = { ...first, id: 'setpointC:nowhere' }
  const wrong = (change: Partial<AcceptedFit>) =>
    pathsOf([described, read], make('fit.accepted', { ...body, ...change }))
  expect(wrong({ inputs: [first, first, nowhere] })).toEqual(['body.inputs.1.id', 'body.inputs.2.id'])
  const range = { lower: first.fitted.value + 1, upper: first.fitted.value + 2 }
  expect(wrong({ inputs: [{ ...first, fitted: { ...first.fitted, range } }, ...rest] })).toEqual([
    'body.inputs.0.fitted',
  ])
  const given = { kind: 'stopped loop' as const, words: 'it stands', parts: [] }
  expect(wrong({ found: [{ ...given, id: 'stopped:nowhere' }] })).toEqual(['body.found.0.id'])
  expect(wrong({ found: [{ ...given, id: 'stopped:hot-return-hot-c-f1-to-return-main-c' }] })).toEqual([])
})

test('[CLB16] the latest fit in force is taken, until it is withdrawn or the building is described otherwise', () => {
  expect(fitInUse(stateOf(described, read, accepted))?.id).toBe(accepted.id)
  const withdrawn = make('entry.withdrawn', {}, { entry: accepted.id, reason: 'the return was opened' })
  expect(latestFit(stateOf(described, read, accepted, withdrawn))).toBeUndefined()
  const edited = make('building.edited', { changes: [...removalOf(threeTaps, { id: 'basin-tap-c103' }).changes] })
  const later = stateOf(described, read, accepted, edited)
  expect(latestFit(later)).toMatchObject({ stale: true })
  expect(fitInUse(later)).toBeUndefined()
})

test('[CLB16] predictions with other fitted values, or without, are stale, and none is recorded', () => {
  const [without, withIt] = [predictionWith(undefined), predictionWith(accepted.id)]
  expect(latestPrediction(stateOf(described, read, without))).toMatchObject({ stale: false })
  expect(latestPrediction(stateOf(described, read, without, accepted))).toMatchObject({
    stale: true,
    changed: 'fitted values',
  })
  expect(pathsOf([described, read, accepted], without)).toEqual(['body.fit'])
  expect(pathsOf([described, read, accepted], withIt)).toEqual([])
  expect(pathsOf([described, read], withIt)).toEqual(['body.fit'])
  expect(latestPrediction(stateOf(described, read, accepted, withIt))).toMatchObject({ stale: false })
})

test('[CLB17] its note may be amended, its values may not', () => {
  const entries = [described, read, accepted]
  const amending = (changed: AcceptedFit) => make('fit.accepted', changed, { entry: accepted.id, reason: 'clearer' })
  expect(pathsOf(entries, amending({ ...body, note: 'Before the return was opened.' }))).toEqual([])
  expect(pathsOf(entries, amending({ ...body, seed: 9 }))).toEqual(['body'])
})

test('[CLB18] what was taken over simulates the building as it was fitted, faults and all', () => {
  const overrides = fittedOverrides(threeTaps, body)
  expect(Object.keys(overrides).toSorted()).toEqual(Object.keys(found.overrides).toSorted())
  expect(overrides.setpointC?.['heater-1']).toBeCloseTo(found.overrides.setpointC?.['heater-1'] ?? Number.NaN, 3)
  for (const { kind, system, truly } of KNOWN_FAULTS) {
    const faulty = fittedBuilding(system, { truly, seed: 101 }).found
    const again = fittedOverrides(
      system,
      acceptedFitOf({ found: faulty, systemEntry: described.id, round: 'R1', seed: 1 }),
    )
    const temperatures = (with_: typeof again): number[] => {
      const answer = simulateConditions(system, { overrides: with_, mostDays: 2 })
      if (answer.kind !== 'conditions') throw new TypeError(kind)
      return Object.values(answer.conditions.components).map(({ temperatureC }) => temperatureC.mean)
    }
    const direct = temperatures(faulty.overrides)
    expect(faulty.findings.length, kind).toBeGreaterThan(0)
    for (const [at, mean] of temperatures(again).entries()) expect(mean, kind).toBeCloseTo(direct[at] ?? Number.NaN, 2)
  }
}, 300_000)
