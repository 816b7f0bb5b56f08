import { expect, test } from 'vitest'
import { everyInput } from '../calibration/inputs.ts'
import { systemEntryOf } from '../conditions/system-entry.ts'
import { derive } from '../state/derive.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { reportContext } from './context.ts'
import { dayOfRecord } from './day-of-record.ts'
import { FIXTURE_ID, reportEntries } from './report.fixture.ts'
import { conditionsSection } from './section-conditions.ts'
import { fittedSection } from './section-fitted.ts'

const entries = reportEntries({ samples: 20, rounds: 1 })
const state = derive(FIXTURE_ID, entries)
const { system } = state.building
if (system === undefined) throw new TypeError('no building')
const { make } = entryMaker(FIXTURE_ID, { device: 'late', startAt: '2026-05-01T08:00:00.000Z' })
const range = { lower: 55.9, upper: 58.5 }
const outlet = system.components.find(({ id }) => id === 'shower-c605')
const accepted = make('fit.accepted', {
  system: systemEntryOf(state.record) ?? '',
  round: 'R1',
  seed: 1,
  level: 0.9,
  readings: 31,
  unexplained: 2,
  inputs: everyInput(system)
    .filter(({ id }) => id.startsWith('setpointC'))
    .map(({ id, words, unit, parts }) => ({
      id,
      words,
      unit,
      parts: [...parts],
      believed: { value: 60, range: { lower: 56.7, upper: 63.3 } },
      fitted: { value: 57.2, range },
    })),
  found: [
    {
      id: `crossed:${outlet?.id}`,
      kind: 'crossed mixing valve',
      words: 'Cold water crosses into the hot side at 605 shower.',
      parts: [outlet?.id ?? ''],
      size: { words: 'Flow that crosses', unit: 'L/min', value: 1, range: { lower: 0.5, upper: 2 } },
    },
  ],
  note: 'R. Vale was there.',
})
const told = (of: InvestigationState, variant: 'full' | 'redacted' = 'full') => {
  const head = { sequence: of.record.entries.length, hash: 'a'.repeat(64) }
  const context = reportContext(of, { head, variant, today: dayOfRecord(of) })
  return { fitted: fittedSection(context), conditions: JSON.stringify(conditionsSection(context)) }
}
const withFit = derive(FIXTURE_ID, [...entries, accepted])

test('[RPT17] fitted values stand with their ranges, the round they are from, what was taken as given, and the entry', () => {
  expect(checkEntry(state, accepted)).toMatchObject({ ok: true })
  const { fitted, conditions } = told(withFit)
  const said = JSON.stringify(fitted)
  for (const words of [
    'Fitted, not measured',
    'From 31 readings of round R1, 2 of them not explained.',
    '60 °C (56.7 to 63.3)',
    '57.2 °C (55.9 to 58.5)',
    'with 90 % ranges, from readings of round R1',
    'not seen on site',
    'at 605 shower',
    'Flow that crosses: 1 L/min (0.5 to 2)',
    'R. Vale was there.',
  ])
    expect(said).toContain(words)
  expect(said).toContain(`"entries":[${entries.length + 1}]`)
  expect(conditions).toContain('The fitted values changed after this prediction was made')
})

test('[RPT17] without a fit nothing is said; one of a building as it was says so', () => {
  expect(told(state).fitted).toBeUndefined()
  const edited = make('building.edited', { changes: [{ change: 'set-name', name: 'Marram Court' }] })
  expect(JSON.stringify(told(derive(FIXTURE_ID, [...entries, accepted, edited])).fitted)).toContain(
    'predictions no longer take them',
  )
})

test('[RPT8] the redacted variant gives the places of fitted values by kind, riser and floor', () => {
  const said = JSON.stringify(told(withFit, 'redacted').fitted)
  expect(said).toContain('crossed mixing valve: shower')
  for (const words of ['605', 'Vale']) expect(said).not.toContain(words)
})

test('[RPT17] a prediction made with fitted values names the fit', () => {
  const prediction = withFit.building.predictions.at(-1)?.body
  if (prediction === undefined) throw new TypeError('no prediction')
  const again = make('prediction.recorded', { ...prediction, fit: accepted.id })
  const { conditions } = told(derive(FIXTURE_ID, [...entries, accepted, again]))
  expect(conditions).toContain('fitted to readings of round R1, in place of what is described')
  expect(conditions).not.toContain('The fitted values changed')
})
