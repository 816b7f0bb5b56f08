import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { addDays } from '../calendar/iso-date.ts'
import { runCalculation } from '../catalogue/catalogue.ts'
import { followUpDates } from './follow-up-dates.ts'
import { followUpRuleSchema } from './follow-up-rule.ts'

const rule = followUpRuleSchema.parse({
  phases: [
    { everyDays: 14, forMonths: 3 },
    { everyMonths: 1, forMonths: 3 },
  ],
})
const from = (remediationCompletedOn: string) => ({
  remediationCompletedOn,
  rule,
  results: [],
  furtherRemediationsOn: [],
})
const run = (input: object) => runCalculation({ id: 'follow-up-dates', input: { ...from('2026-01-31'), ...input } })

test('every round negative on its day meets the rule; one day earlier it does not', () => {
  fc.assert(
    fc.property(fc.nat({ max: 3000 }), (days) => {
      const input = from(addDays('2024-01-01', days))
      const rounds = followUpDates(input).rounds
      const results = rounds.map(({ dueOn }) => ({ collectedOn: dueOn, outcome: 'negative' as const }))
      expect(followUpDates({ ...input, results })).toMatchObject({ state: 'met', closing: { met: true } })
      expect(followUpDates({ ...input, results: results.slice(0, -1) }).closing.met).toBe(false)
      const early = followUpDates({
        ...input,
        results: [{ collectedOn: addDays(rounds[0]?.dueOn ?? '', -1), outcome: 'negative' }],
      })
      expect(early.notCounted).toHaveLength(1)
    }),
    { numRuns: 50 },
  )
})

test('a positive starts the series again from its day', () => {
  const first = followUpDates(from('2026-01-31'))
  const again = followUpDates({ ...from('2026-01-31'), results: [{ collectedOn: '2026-02-14', outcome: 'positive' }] })
  expect(again).toMatchObject({ countsFrom: '2026-02-14', state: 'restarted' })
  expect(again.closing.earliestOn > first.closing.earliestOn).toBe(true)
})

test('days and rules that cannot be are refused with the field', () => {
  expect(run({ remediationCompletedOn: '2026-02-30' })).toMatchObject({ issues: [{ path: 'remediationCompletedOn' }] })
  expect(run({ results: [{ collectedOn: '2026-02-14', outcome: 'clean' }] })).toMatchObject({
    issues: [{ path: 'results.0.outcome' }],
  })
  expect(run({ rule: { phases: [] } })).toMatchObject({ issues: [{ path: 'rule.phases' }] })
  expect(run({ rule: { phases: [{ everyDays: 1, forMonths: 120 }] } })).toMatchObject({
    issues: [{ path: 'rule.phases' }],
  })
})

test('lengths beyond any calendar are refused, never thrown', () => {
  for (const months of [1e308, 9e15, 121, 0, -5])
    expect(run({ rule: { phases: [{ everyMonths: 1, forMonths: months }] } })).toHaveProperty('issues')
  expect(run({ rule: { phases: [{ everyDays: 1e308, forDays: 1e308 }] } })).toHaveProperty('issues')
})

test('a phase in which no round falls is refused; a rule without a round is never met', () => {
  expect(run({ rule: { phases: [{ everyDays: 60, forMonths: 1 }] } })).toMatchObject({
    issues: [{ path: 'rule.phases.0' }],
  })
  const february = followUpDates({
    ...from('2026-01-31'),
    rule: followUpRuleSchema.parse({ phases: [{ everyDays: 30, forMonths: 1 }] }),
  })
  expect(february.rounds).toEqual([])
  expect(february).toMatchObject({ state: 'waiting', closing: { met: false, earliestOn: '2026-01-31' } })
})
