import { expect, test } from 'vitest'
import { criteriaSetSchema } from '../criteria/criteria-set.ts'
import { CRITERIA_SETS, findCriteriaSet } from '../criteria/criteria-sets.ts'
import type { Entry } from '../entry/entry.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive } from '../state/derive.ts'
import { NEGATIVE, roundWriter } from './follow-up.fixture.ts'
import { scheduleOn } from './follow-up-view.ts'

const write = roundWriter()
const TODAY = '2026-09-01'

function pathsOf<K extends Kind>(before: Entry[], { kind, body }: { kind: K; body: BodyOf<K> }): string[] {
  const checked = checkEntry(derive('marram-house', before), write.on(TODAY)(kind, body))
  return checked.ok ? [] : checked.issues.map(({ path }) => path)
}
const start = (body: Partial<BodyOf<'follow-up.started'>> = {}) => ({
  kind: 'follow-up.started' as const,
  body: { remediationCompletedOn: '2026-01-31', criteria: 'us-cdc', version: '1', ...body },
})
const close = (body: Partial<BodyOf<'follow-up.closed'>> = {}) => ({
  kind: 'follow-up.closed' as const,
  body: { closedOn: '2026-08-31', ruleMet: true, ...body },
})

/** Every round of the rule, each negative on its day. */
function wholeSeries(): Entry[] {
  const begun = [write.started('2026-01-31')]
  const rounds = scheduleOn(derive('marram-house', begun), TODAY)?.rounds ?? []
  return [
    ...begun,
    ...rounds.flatMap(({ dueOn, number }) => write.round(dueOn, { code: `R${number + 1}`, value: NEGATIVE })),
  ]
}

test('[FUP10] follow-up starts by a known set in its version that has a follow-up rule, after a remediation that is past', () => {
  const without = CRITERIA_SETS.find(({ followUp }) => followUp === undefined)?.id ?? ''
  expect(pathsOf([], start())).toEqual([])
  expect(pathsOf([], start({ criteria: 'nobody' }))).toEqual(['body.criteria'])
  expect(pathsOf([], start({ version: '99' }))).toEqual(['body.criteria'])
  expect(pathsOf([], start({ criteria: without }))).toEqual(['body.criteria'])
  expect(pathsOf([], start({ remediationCompletedOn: '2026-09-02' }))).toEqual(['body.remediationCompletedOn'])
})

test('[FUP10] a set of one’s own runs on after another set was chosen in Findings', () => {
  const own = criteriaSetSchema.parse({ ...findCriteriaSet('us-cdc'), id: 'county', version: '3' })
  const chosen = write.on('2026-01-02')('criteria.chosen', { criteria: 'county', version: '3', own })
  const other = write.on('2026-01-03')('criteria.chosen', { criteria: 'us-cdc', version: '1' })
  expect(pathsOf([chosen, other], start({ criteria: 'county', version: '3' }))).toEqual([])
})

test('[FUP11] closing says of the rule what the record says', () => {
  const series = wholeSeries()
  expect(pathsOf(series, close())).toEqual([])
  expect(pathsOf(series, close({ ruleMet: false, overrideReason: 'x' }))).toEqual(['body.ruleMet'])
  expect(pathsOf(series.slice(0, -1), close())).toEqual(['body.ruleMet'])
  expect(pathsOf(series, close({ closedOn: '2026-07-30' }))).toEqual(['body.ruleMet'])
  expect(pathsOf([], close())).toEqual(['body.ruleMet'])
})

test('[FUP12] without the rule met, closing needs a reason; it lies in the past and happens once', () => {
  expect(pathsOf([], close({ ruleMet: false }))).toEqual(['body.overrideReason'])
  expect(pathsOf([], close({ ruleMet: false, overrideReason: 'no water system in use' }))).toEqual([])
  const overridden = { ruleMet: false, overrideReason: 'x' }
  expect(pathsOf([], close({ ...overridden, closedOn: '2026-09-02' }))).toEqual(['body.closedOn'])
  const closed = write.on('2026-08-31')('follow-up.closed', close(overridden).body)
  expect(pathsOf([closed], close(overridden))).toEqual(['body'])
  expect(pathsOf([closed], start())).toEqual(['body'])
})

test('[FUP13] only a closed investigation is reopened', () => {
  const reopen = { kind: 'follow-up.reopened' as const, body: { reason: 'a new case' } }
  expect(pathsOf([], reopen)).toEqual(['body'])
  const closed = write.on('2026-08-31')('follow-up.closed', { closedOn: '2026-08-31', ruleMet: true })
  expect(pathsOf([closed], reopen)).toEqual([])
})
