import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { expect, test } from 'vitest'
import { calculationsUsed } from './calculations-used.ts'
import { reportContext } from './context.ts'
import { reportState } from './report.fixture.ts'

const state = reportState()
const head = { sequence: state.record.entries.length, hash: '0'.repeat(64) }
const used = calculationsUsed(reportContext(state, { head, variant: 'full', today: '2026-03-30' }))
const one = (id: string) => used.find(({ calculation }) => calculation.id === id)

test('[RPT2] every calculation behind a number is named once, with its version, what was put in and its entries', () => {
  const ids = used.map(({ calculation }) => calculation.id)
  expect(new Set(ids).size).toBe(ids.length)
  for (const id of ['incubation', 'detection-probability', 'upper-bound-after-negatives', 'neutralizer', 'proportion'])
    expect(ids).toContain(id)
  for (const { calculation, where, putIn, entries } of used) {
    expect(calculation.version).toBe(findCalculation(calculation.id)?.version)
    expect(where.length).toBeGreaterThan(0)
    expect(putIn.join('')).not.toMatch(/undefined|NaN/)
    expect(entries.length).toBeGreaterThan(0)
  }
})

test('[RPT2] what someone put into the record is among them', () => {
  expect(state.brief.calculations.length).toBeGreaterThan(0)
  for (const { body } of state.brief.calculations) expect(one(body.id)?.where).toContain('put into the record')
})

test('[RPT2] without cases shown, their windows are not among them', () => {
  const redacted = calculationsUsed(reportContext(state, { head, variant: 'redacted', today: '2026-03-30' }))
  expect(redacted.map(({ calculation }) => calculation.id)).not.toContain('incubation')
})
