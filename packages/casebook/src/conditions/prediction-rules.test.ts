import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import { namedParts } from '../building/named-parts.ts'
import { removalOf } from '../building/remove-part.ts'
import type { Entry } from '../entry/entry.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { conditionsByHand } from './conditions.fixture.ts'
import { latestPrediction } from './latest-prediction.ts'
import type { Prediction } from './prediction.ts'
import { predictionOf } from './prediction-of.ts'
import { systemEntryOf } from './system-entry.ts'

const { make } = entryMaker('marram-house')
const system = buildSystem(marramHouse)
const described = make('building.described', { source: 'quick description', quick: marramHouse, system })
const edited = make('building.edited', { changes: [...removalOf(system, { id: 'shower-c605' }).changes] })
const predictionAt = (systemEntry: string): Prediction =>
  predictionOf({ system, systemEntry, conditions: conditionsByHand(system) })
const pathsOf = (entries: readonly Entry[], candidate: unknown) => {
  const checked = checkEntry(derive('marram-house', entries), candidate)
  return checked.ok ? [] : [...new Set(checked.issues.map(({ path }) => path))]
}

test('[PRD1] a prediction names the entry that last shaped the building, and speaks of its parts only', () => {
  const sound = make('prediction.recorded', predictionAt(described.id))
  expect(pathsOf([described], sound)).toEqual([])
  expect(pathsOf([], sound)).toContain('body.system')
  expect(pathsOf([described, edited], sound)).toEqual([
    'body.system',
    expect.stringMatching(/^body\.places\.\d+\.place$/),
    expect.stringMatching(/^body\.places\.\d+\.place$/),
  ])
})

test('[PRD1] an edit that was withdrawn or amended shaped the building too', () => {
  const withdrawn = make('entry.withdrawn', {}, { entry: edited.id, reason: 'wrong shower' })
  const state = derive('marram-house', [described, edited, withdrawn])
  expect(systemEntryOf(state.record)).toBe(withdrawn.id)
  const swept = make('device.swept', { device: 'spa-pool', state: 'absent' })
  expect(systemEntryOf(derive('marram-house', [described, edited, swept]).record)).toBe(edited.id)
  const slip = make('entry.withdrawn', {}, { entry: swept.id, reason: 'slip' })
  expect(systemEntryOf(derive('marram-house', [described, swept, slip]).record)).toBe(described.id)
})

test('[PRD2] each water of a place stands once, its mean between its lowest and highest', () => {
  const body = predictionAt(described.id)
  const [first, ...rest] = body.places
  if (first === undefined) throw new TypeError('no place')
  const twice = make('prediction.recorded', { ...body, places: [first, first, ...rest] })
  expect(pathsOf([described], twice)).toEqual(['body.places.1'])
  const wrong = make('prediction.recorded', { ...body, places: [{ ...first, temperatureC: [20, 21, 25] }, ...rest] })
  expect(pathsOf([described], wrong)).toEqual(['body.places.0.temperatureC'])
})

test('[PRD3] the latest prediction counts, and is stale once the building changed', () => {
  const first = make('prediction.recorded', predictionAt(described.id))
  const second = make('prediction.recorded', { ...predictionAt(described.id), seed: 2 })
  const entries = [described, first, second]
  expect(latestPrediction(derive('marram-house', entries))).toMatchObject({ entry: { id: second.id }, stale: false })
  expect(latestPrediction(derive('marram-house', [...entries, edited]))).toMatchObject({ stale: true })
  const withdrawn = make('entry.withdrawn', {}, { entry: second.id, reason: 'wrong seed' })
  expect(latestPrediction(derive('marram-house', [...entries, withdrawn]))).toMatchObject({ entry: { id: first.id } })
  expect(latestPrediction(derive('marram-house', [described]))).toBeUndefined()
})

test('[PRD4] figures stand as recorded, also after the building changed; a note may be amended', () => {
  const recorded = make('prediction.recorded', predictionAt(described.id))
  const amending = (body: Prediction) =>
    make('prediction.recorded', body, { entry: recorded.id, reason: 'said more clearly' })
  const entries = [described, recorded, edited]
  expect(pathsOf(entries, amending({ ...recorded.body, note: 'Before the return was balanced.' }))).toEqual([])
  expect(pathsOf(entries, amending({ ...recorded.body, seed: 7 }))).toEqual(['body'])
})

test('[PRD5] a prediction holds no part of the building in place', () => {
  const recorded = make('prediction.recorded', predictionAt(described.id))
  expect(namedParts(derive('marram-house', [described, recorded])).size).toBe(0)
  expect(pathsOf([described, recorded], edited)).toEqual([])
})
