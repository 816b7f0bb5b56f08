import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { type FollowUpRule, followUpRuleSchema, intervalDays, phaseDays } from './follow-up-rule.ts'
import { type FollowUpSchedule, followUpSchedule, type SamplingSoFar } from './schedule.ts'

export interface FollowUpDatesInput {
  remediationCompletedOn: string
  rule: FollowUpRule
  results: SamplingSoFar[]
  furtherRemediationsOn: string[]
  today?: string | undefined
}

/**
 * The rounds of samples that follow a remediation: when each is due, which are late, what counted, and whether the rule for closing is
 * met. Wanted because follow-up is where investigations are dropped too early.
 *
 * A round of a phase falls at start + i · interval while that isn't after start + duration, start the end of the phase before. A positive
 * starts the whole series again, from the later of that sampling and the next remediation.
 *
 * Special cases: without `today` nothing is called due or late; a sampling that counts for no round is listed with the reason.
 *
 * @param input day the remediation was completed, the rule, results so far, further remediations, today
 * @throws RangeError when a date does not exist
 * @source common-practice
 * @example
 * followUpDates({ remediationCompletedOn: '2026-01-31', rule: { phases: [{ everyMonths: 1, forMonths: 2 }], window: { beforeDays: 0, afterDays: 0 }, minGapDays: 1, restartOnPositive: true }, results: [], furtherRemediationsOn: [] }).rounds[0].dueOn // => "2026-02-28"
 */
export function followUpDates(input: FollowUpDatesInput): FollowUpSchedule {
  const { remediationCompletedOn, rule, results, furtherRemediationsOn, today } = input
  return followUpSchedule({
    rule,
    remediationCompletedOn,
    furtherRemediationsOn,
    samplings: results,
    ...(today === undefined ? {} : { today }),
  })
}

const MOST_RESULTS = 1000
/** Far enough either side for any building; keeps dates of four digits. */
const [EARLIEST, LATEST] = ['1900-01-01', '2200-12-31']
const date = () =>
  z.iso.date().refine((day) => day >= EARLIEST && day <= LATEST, `a date from ${EARLIEST} to ${LATEST}`)

/** A daily round for ten years is more than anyone samples, and already a long list. */
const MOST_ROUNDS = 1000
/** Beyond it a number says no more than a word. */
const MOST_COUNTED = 1e6

const input = z
  .strictObject({
    remediationCompletedOn: field(date(), { what: 'day the remediation was completed, YYYY-MM-DD' }),
    rule: field(followUpRuleSchema, {
      what: 'when samples are taken after a remediation',
    }),
    results: field(
      z
        .array(
          z.strictObject({
            collectedOn: field(date(), { what: 'day the round was sampled' }),
            outcome: field(z.enum(['negative', 'positive', 'pending', 'not interpretable']), {
              what: 'of the round as a whole: positive when any sample is, by the rule’s own meaning',
            }),
          }),
        )
        .max(MOST_RESULTS)
        .default([]),
      { what: 'rounds sampled so far' },
    ),
    furtherRemediationsOn: field(z.array(date()).max(MOST_RESULTS).default([]), { what: 'days of later remediations' }),
    today: field(date().optional(), { what: 'the day to judge by; without it nothing is due or late' }),
  })
  .superRefine(({ rule }, context) => {
    const rounds = rule.phases.reduce((sum, phase) => sum + phaseDays(phase) / Math.max(1, intervalDays(phase)), 0)
    if (rounds > MOST_ROUNDS)
      context.addIssue(
        refuse(['rule', 'phases'], {
          expected: `at most ${MOST_ROUNDS} rounds`,
          received: rounds > MOST_COUNTED ? 'far more' : `about ${Math.round(rounds)}`,
        }),
      )
  })

const EXAMPLE = {
  remediationCompletedOn: '2026-03-06',
  rule: {
    phases: [
      { everyDays: 14, forMonths: 1 },
      { everyMonths: 1, forMonths: 2 },
    ],
    window: { beforeDays: 3, afterDays: 3 },
    minGapDays: 7,
    restartOnPositive: true,
  },
  results: [{ collectedOn: '2026-03-20', outcome: 'negative' as const }],
  furtherRemediationsOn: [],
  today: '2026-04-01',
}

const day = (what: string) => field(z.string(), { what })

export const followUpDatesCalculation = defineCalculation({
  id: 'follow-up-dates',
  title: 'Rounds after a remediation',
  purpose: 'When samples are due after a remediation, what is late, and when the rule for closing is met.',
  formula: {
    text: 'round i of a phase at start + i · interval, while that is not after start + duration',
    symbols: {
      start: 'remediationCompletedOn, or the end of the phase before',
      interval: 'everyDays or everyMonths of the phase',
    },
  },
  input,
  output: z.object({
    state: field(z.enum(['waiting', 'due', 'late', 'met', 'restarted']), {
      what: 'where the series stands: waiting, due, late, met (every round negative), or restarted by a positive or another remediation',
    }),
    countsFrom: day('day the clock runs from now'),
    rounds: field(
      z.array(
        z.object({
          number: field(z.number(), { what: 'number of the round' }),
          phase: field(z.union([z.literal('first sample'), z.number()]), {
            what: 'phase of the rule, from 1, or first sample',
          }),
          earliestOn: day('first day that counts'),
          dueOn: day('day it is due'),
          latestOn: day('last day on time'),
          state: field(z.enum(['waiting', 'due', 'late', 'sampled', 'negative']), {
            what: 'where the round stands; sampled: the laboratory is awaited',
          }),
          collectedOn: field(z.string().optional(), { what: 'day it was sampled' }),
        }),
      ),
      { what: 'rounds, in order' },
    ),
    restarts: field(z.array(z.object({ on: day('day'), reason: day('why') })), {
      what: 'when the series started again',
    }),
    notCounted: field(
      z.array(
        z.object({ collectedOn: day('day'), outcome: day('outcome'), reason: day('why it counts for no round') }),
      ),
      { what: 'samplings that count for no round' },
    ),
    closing: field(
      z.object({
        met: field(z.boolean(), { what: 'whether the rule for closing is met' }),
        earliestOn: day('earliest day it can be'),
        reason: day('what is still needed'),
      }),
      { what: 'the rule for closing' },
    ),
  }),
  sources: sourcesOf('common-practice'),
  cautions: [
    'The rule is that of your own jurisdiction or agency; the figures here are none of their own.',
    'Negative rounds say that control holds where and when samples were taken, not that the building is free.',
  ],
  example: {
    input: EXAMPLE,
    output: {
      state: 'due',
      countsFrom: '2026-03-06',
      closing: { met: false, earliestOn: '2026-06-03', reason: '3 of 4 rounds are still needed' },
      rounds: [
        {
          phase: 1,
          dueOn: '2026-03-20',
          earliestOn: '2026-03-17',
          latestOn: '2026-03-23',
          number: 1,
          collectedOn: '2026-03-20',
          state: 'negative',
        },
        { phase: 1, dueOn: '2026-04-03', earliestOn: '2026-03-31', latestOn: '2026-04-06', number: 2, state: 'due' },
        {
          phase: 2,
          dueOn: '2026-05-06',
          earliestOn: '2026-05-03',
          latestOn: '2026-05-09',
          number: 3,
          state: 'waiting',
        },
        {
          phase: 2,
          dueOn: '2026-06-06',
          earliestOn: '2026-06-03',
          latestOn: '2026-06-09',
          number: 4,
          state: 'waiting',
        },
      ],
      restarts: [],
      notCounted: [],
    },
  },
  run: (given) => copied(followUpDates(given)),
})

/** The schedule with lists of its own, as the descriptor's types want them. */
function copied({ rounds, restarts, notCounted, ...rest }: FollowUpSchedule) {
  return { ...rest, rounds: [...rounds], restarts: [...restarts], notCounted: [...notCounted] }
}
