import type { RoundOutcome } from '../follow-up/round-outcomes.ts'
import type { ReportContext } from './context.ts'
import type { Block, Row, Section } from './model.ts'
import { column, heading, numberColumn, table, told } from './words.ts'

export function followUpSection(context: ReportContext): Section {
  const blocks: Block[] = [
    ...ruleBlocks(context),
    heading('Rounds sampled'),
    outcomeTable(context),
    ...scheduleBlocks(context),
    heading('Closing'),
    ...closingBlocks(context),
  ]
  return { id: 'follow-up', title: 'Follow-up', blocks }
}

function ruleBlocks({ followUp, state, numbersOf, cite, said }: ReportContext): Block[] {
  const { started, criteria } = followUp
  if (started === undefined) return [told('Follow-up has not been started: no rule runs.')]
  const rule = criteria?.followUp
  const entries = numbersOf(...state.followUp.starts)
  const { remediationCompletedOn, criteria: id, version, reason } = started.body
  return [
    told(
      `Remediation completed on ${remediationCompletedOn}. Rule: ${rule?.title ?? `${id}, version ${version}, which this program does not carry`}.${reason === undefined ? '' : ` ${said(reason)}`}`,
      { entries, cites: rule === undefined ? [] : [cite(rule)] },
    ),
    ...(rule === undefined
      ? []
      : [told(`Closing, by the rule: ${rule.closing} Positive means: ${rule.positiveMeans}.`)]),
  ]
}

function outcomeTable({ followUp, state, numbersOf }: ReportContext): Block {
  const rows: Row[] = followUp.outcomes.map((outcome) => ({
    cells: [
      outcome.round,
      outcome.purpose,
      outcome.collectedOn ?? 'not sampled',
      `${outcome.labels.length}`,
      { text: outcome.outcome, strong: outcome.outcome === 'positive' },
      outcomeWords(outcome),
    ],
    entries: numbersOf(state.plan.rounds.get(outcome.round)),
  }))
  return table({
    caption: 'What came of each round',
    columns: [
      column('Round', 0.7),
      column('Purpose', 1),
      column('Last sample', 1.2),
      numberColumn('Samples', 0.8),
      column('Outcome', 1.3),
      column('Why', 4),
    ],
    rows,
    none: 'No round was adopted.',
  })
}

const outcomeWords = ({ reason, positiveLabels }: RoundOutcome): string =>
  positiveLabels.length === 0 ? reason : `${reason}: ${positiveLabels.join(', ')}`

function scheduleBlocks(context: ReportContext): Block[] {
  const { schedule, couldMiss } = context.followUp
  const resultsOn = (day: string | undefined): number[] =>
    context.resultNumbers(
      context.followUp.outcomes.filter(({ collectedOn }) => collectedOn === day).flatMap(({ labels }) => labels),
    )
  if (schedule === undefined) return []
  const starts = context.numbersOf(...context.state.followUp.starts)
  return [
    heading('Schedule'),
    told(`The clock runs from ${schedule.countsFrom}.`),
    table({
      caption: 'Rounds of the rule',
      columns: [
        numberColumn('No.', 0.5),
        column('Earliest', 1.2),
        column('Due', 1.2),
        column('Latest', 1.2),
        column('Sampled', 1.2),
        column('State', 1.2),
      ],
      rows: schedule.rounds.map(({ number, earliestOn, dueOn, latestOn, collectedOn, state }) => ({
        cells: [`${number}`, earliestOn, dueOn, latestOn, collectedOn ?? '', state],
        entries: collectedOn === undefined ? starts : resultsOn(collectedOn),
      })),
      none: 'The rule asks for no round.',
    }),
    table({
      caption: 'Why the clock started again',
      columns: [column('On', 1), column('Reason', 5)],
      rows: schedule.restarts.map(({ on, reason }) => ({ cells: [on, reason], entries: restartNumbers(context, on) })),
      none: 'The clock never started again.',
    }),
    ...(schedule.notCounted.length === 0
      ? []
      : [
          table({
            caption: 'Samplings that count for no round of the rule',
            columns: [column('On', 1), column('Outcome', 1.2), column('Why it does not count', 4)],
            rows: schedule.notCounted.map(({ collectedOn, outcome, reason }) => ({
              cells: [collectedOn, outcome, reason],
              entries: resultsOn(collectedOn),
            })),
            none: '',
          }),
        ]),
    ...(couldMiss === undefined ? [] : [told(couldMiss.words)]),
  ]
}

/** A clock starts again from a sampling with positives, or from a later remediation. */
function restartNumbers({ followUp, state, numbersOf, resultNumbers }: ReportContext, day: string): number[] {
  const starts = state.followUp.starts.filter(({ body }) => body.remediationCompletedOn === day)
  const positive = followUp.outcomes
    .filter(({ collectedOn }) => collectedOn === day)
    .flatMap(({ positiveLabels }) => positiveLabels)
  return starts.length > 0 ? numbersOf(...starts) : resultNumbers(positive)
}

function closingBlocks({ followUp, numbersOf, said }: ReportContext): Block[] {
  const { closed, schedule, reopenBecause, remediatedSince } = followUp
  const warnings = [
    ...reopenBecause.map((text) => ({ text: `Since closing: ${said(text)}.` })),
    ...remediatedSince.map(({ on, what }) => ({
      text: `Remediation after the clock started: ${said(what)}, completed on ${on}. The clock was not moved by it.`,
    })),
  ]
  const words =
    closed === undefined
      ? `The investigation is open.${schedule === undefined ? '' : ` ${schedule.closing.reason}.`}`
      : closed.body.ruleMet
        ? `Closed on ${closed.body.closedOn}; the rule was met.`
        : `Closed on ${closed.body.closedOn} although the rule was not met. Reason given: ${said(closed.body.overrideReason ?? 'none')}`
  return [
    told(words, { entries: numbersOf(closed) }),
    ...(warnings.length === 0 ? [] : [{ block: 'list' as const, items: warnings }]),
  ]
}
