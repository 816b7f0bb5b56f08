import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addDays } from '../calendar/iso-date.ts'
import { followUpRuleSchema } from './follow-up-rule.ts'
import { type SamplingSoFar, followUpSchedule } from './schedule.ts'

// Two-weekly for three months, then monthly for three: the shape of the rule, here with a window of three days each side.
const rule = followUpRuleSchema.parse({
  phases: [
    { everyDays: 14, forMonths: 3 },
    { everyMonths: 1, forMonths: 3 },
  ],
  window: { beforeDays: 3, afterDays: 3 },
  minGapDays: 7,
})
const start = '2026-01-31'
const negative = (collectedOn: string): SamplingSoFar => ({ collectedOn, outcome: 'negative' })
const dueDates = [
  '2026-02-14',
  '2026-02-28',
  '2026-03-14',
  '2026-03-28',
  '2026-04-11',
  '2026-04-25',
  '2026-05-31',
  '2026-06-30',
  '2026-07-31',
]

describe('followUpSchedule', () => {
  it('[CRI8] lists every round from the remediation, with ends of months kept', () => {
    const schedule = followUpSchedule({ rule, remediationCompletedOn: start })
    expect(schedule.rounds.map(({ dueOn }) => dueOn)).toEqual(dueDates)
    expect(schedule.rounds.map(({ phase }) => phase)).toEqual([1, 1, 1, 1, 1, 1, 2, 2, 2])
    expect(schedule).toMatchObject({
      state: 'waiting',
      countsFrom: start,
      closing: { met: false, earliestOn: '2026-07-28' },
    })
  })

  it.each([
    ['2026-02-10', 'waiting'],
    ['2026-02-11', 'due'],
    ['2026-02-17', 'due'],
    ['2026-02-18', 'late'],
  ])('[CRI9] on %s the first round is %s', (today, state) => {
    const schedule = followUpSchedule({ rule, remediationCompletedOn: start, today })
    expect(schedule.state).toBe(state)
    expect(schedule.rounds[0]?.state).toBe(state)
  })

  it('[CRI10] is met only when every round was negative', () => {
    const samplings = dueDates.map(negative)
    expect(followUpSchedule({ rule, remediationCompletedOn: start, samplings })).toMatchObject({
      state: 'met',
      closing: { met: true, earliestOn: '2026-07-31' },
    })
    expect(followUpSchedule({ rule, remediationCompletedOn: start, samplings: samplings.slice(1) }).closing.met).toBe(
      false,
    )
    const awaiting = [...samplings.slice(0, -1), { collectedOn: '2026-07-31', outcome: 'pending' as const }]
    expect(followUpSchedule({ rule, remediationCompletedOn: start, samplings: awaiting }).closing).toMatchObject({
      met: false,
      reason: '1 of 9 rounds are still needed, 1 of them sampled and awaiting the laboratory',
    })
  })

  it('[CRI11] a positive starts the clock again and says why', () => {
    const samplings = [negative('2026-02-14'), { collectedOn: '2026-02-28', outcome: 'positive' as const }]
    const schedule = followUpSchedule({ rule, remediationCompletedOn: start, samplings, today: '2026-03-01' })
    expect(schedule).toMatchObject({
      state: 'restarted',
      countsFrom: '2026-02-28',
      restarts: [{ on: '2026-02-28', reason: 'positive in the sampling of 2026-02-28' }],
    })
    expect(schedule.rounds[0]).toMatchObject({ dueOn: '2026-03-14', state: 'waiting' })
    expect(schedule.notCounted).toHaveLength(2)
  })

  it('[CRI11] after a new remediation the clock runs from there, and samples taken in between do not count', () => {
    const samplings = [
      { collectedOn: '2026-02-28', outcome: 'positive' as const },
      negative('2026-03-02'),
      negative('2026-03-24'),
    ]
    const schedule = followUpSchedule({
      rule,
      remediationCompletedOn: start,
      samplings,
      furtherRemediationsOn: ['2026-03-10'],
      today: '2026-03-25',
    })
    expect(schedule).toMatchObject({ state: 'waiting', countsFrom: '2026-03-10' })
    expect(schedule.restarts.map(({ on }) => on)).toEqual(['2026-02-28', '2026-03-10'])
    expect(schedule.rounds[0]).toMatchObject({ dueOn: '2026-03-24', state: 'negative' })
    expect(schedule.notCounted.map(({ collectedOn }) => collectedOn)).toEqual(['2026-02-28', '2026-03-02'])
  })

  it('[CRI12] an overgrown plate, an early sample or a second one in the same week fills no round', () => {
    const samplings = [
      negative('2026-02-05'),
      { collectedOn: '2026-02-14', outcome: 'not interpretable' as const },
      negative('2026-02-26'),
      negative('2026-02-28'),
    ]
    const schedule = followUpSchedule({ rule, remediationCompletedOn: start, samplings, today: '2026-03-01' })
    expect(schedule.notCounted.map(({ reason }) => reason)).toEqual([
      'too early for round 1, which opens on 2026-02-11',
      'not interpretable: the round has to be sampled again',
      'too soon after the sampling before it',
    ])
    expect(schedule.rounds[0]).toMatchObject({ state: 'negative', collectedOn: '2026-02-26' })
    expect(schedule.rounds[1]).toMatchObject({ state: 'waiting', earliestOn: '2026-03-05' })
  })

  it('a first sample has its own window of days', () => {
    const once = followUpRuleSchema.parse({ firstSample: { minDays: 7, maxDays: 28 } })
    const at = (today: string): string =>
      followUpSchedule({ rule: once, remediationCompletedOn: '2026-03-01', today }).state
    expect(['2026-03-07', '2026-03-08', '2026-03-29', '2026-03-30'].map(at)).toEqual(['waiting', 'due', 'due', 'late'])
    expect(
      followUpSchedule({ rule: once, remediationCompletedOn: '2026-03-01', samplings: [negative('2026-03-20')] }).state,
    ).toBe('met')
  })

  it('[CRI10] never closes earlier or with fewer rounds, whatever is sampled when', () => {
    const outcome = fc.constantFrom(
      'negative',
      'negative',
      'negative',
      'positive',
      'pending',
      'not interpretable' as const,
    )
    const sampling = fc.record({
      collectedOn: fc.integer({ min: -20, max: 400 }).map((days) => addDays(start, days)),
      outcome,
    })
    fc.assert(
      fc.property(fc.array(sampling, { maxLength: 60 }), (raw) => {
        const samplings = raw as SamplingSoFar[]
        const schedule = followUpSchedule({ rule, remediationCompletedOn: start, samplings })
        const positives = samplings
          .filter(({ outcome }) => outcome === 'positive')
          .map(({ collectedOn }) => collectedOn)
        expect(positives.every((on) => on <= schedule.countsFrom)).toBe(true)
        const counted = schedule.rounds.filter(({ collectedOn }) => collectedOn !== undefined)
        expect(counted.length + schedule.notCounted.length).toBe(samplings.length)
        expect(counted.every(({ collectedOn }) => (collectedOn ?? '') > schedule.countsFrom)).toBe(true)
        expect(schedule.closing.earliestOn >= addDays(schedule.countsFrom, 178)).toBe(true)
      }),
    )
  })
})
