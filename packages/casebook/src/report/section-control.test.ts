import { expect, test } from 'vitest'
import { reportContext } from './context.ts'
import { reportState } from './report.fixture.ts'
import { controlSection } from './section-control.ts'

test('[RPT2] a p value too small for a number, recorded with a measure, says so', () => {
  const state = reportState()
  for (const { ordered } of state.control.measures.values())
    Object.assign(ordered.body, { calculation: { id: 'two-by-two', input: { level: 0 }, result: { midP: 0, a: 0 } } })
  const head = { sequence: state.record.entries.length, hash: '0'.repeat(64) }
  const section = controlSection(reportContext(state, { head, variant: 'full', today: '2026-03-30' }))
  expect(JSON.stringify(section)).toContain('level 0 gives midP less than 1e-300, a 0.')
})
