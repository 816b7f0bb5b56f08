import { SAMPLE_KIND_WORDS } from '../entry/fields.ts'
import type { Stop } from '../plan/plan-file.ts'
import { PLANNING } from '../plan/planning.ts'
import { counted } from '../units/counted.ts'
import type { ReportContext } from './context.ts'
import type { Block, Row, Section } from './model.ts'
import { column, heading, numberColumn, table, told } from './words.ts'

export function planSection(context: ReportContext): Section {
  const { plan, fieldwork } = context.state
  const blocks = [...plan.rounds.values()].flatMap((adopted) => roundBlocks(context, adopted))
  if (blocks.length === 0) blocks.push(told('No plan was adopted.'))
  if (fieldwork.addedStops.length > 0) blocks.push(heading('Stops added on the spot'), addedTable(context))
  return { id: 'plan', title: 'Sampling plan', blocks }
}

type Adopted = ReturnType<ReportContext['state']['plan']['rounds']['get']> & object

function roundBlocks(context: ReportContext, adopted: Adopted): Block[] {
  const { numbersOf, said } = context
  const { round, purpose, scheduledOn, plan } = adopted.body
  const entries = numbersOf(adopted)
  const { samples, hours, teams } = plan.budget
  const limits = [
    `${samples} samples`,
    ...(hours === undefined ? [] : [`${hours} h`]),
    ...(teams === undefined ? [] : [counted(teams, 'team')]),
  ]
  return [
    heading(`Round ${round}, ${purpose}`),
    told(
      `${counted(plan.stops.length, 'stop')}, ${counted(plan.totals.samples, 'sample')}, ${counted(plan.totals.outlets, 'outlet')}${scheduledOn === undefined ? '' : `; scheduled on ${scheduledOn}`}. Budget: ${limits.join(', ')}.`,
      { entries },
    ),
    ...pointBlocks(context, adopted),
    heading(`What round ${round} can and can’t tell`),
    {
      block: 'list',
      items: [
        ...plan.scenarios.map(({ words, detectionProbability }) => ({
          text: `${words}. Chance that at least one sample is positive: ${chanceWords(detectionProbability)}.`,
          entries,
        })),
        ...plan.couldHide.map((text) => ({ text, entries })),
        ...(plan.notes ?? []).map((text) => ({ text: said(text), entries })),
        {
          text: `Chances suppose that a sample of a colonised point is found positive with a chance of ${PLANNING.sensitivity}, and that the outlets sampled stand for the rest.`,
        },
      ],
    },
  ]
}

/** Which points were chosen because of a case would lead to its rooms, so the redacted variant counts reasons over all points. */
function pointBlocks(context: ReportContext, adopted: Adopted): Block[] {
  const { redacted, said, numbersOf } = context
  const { round, plan } = adopted.body
  const entries = numbersOf(adopted)
  const points = table({
    caption: `Round ${round}: points, in walking order${redacted ? '' : ', with the reason for each'}`,
    columns: [
      numberColumn('No.', 0.4),
      column('Point', redacted ? 3 : 1.7),
      column('Samples', 2.9),
      ...(redacted ? [] : [column('Why it is in', 3.6)]),
    ],
    rows: plan.stops.map((stop, index) => stopRow(context, { stop, number: index + 1, entries })),
    none: 'The plan has no stop.',
  })
  if (redacted)
    return [
      points,
      told(`Points by reason, several reasons to a point: ${reasonCounts(plan.stops)}.`, { entries }),
      told(`${counted(plan.leftOut.length, 'point')} left out for want of budget.`, { entries }),
    ]
  return [
    points,
    table({
      caption: `Round ${round}: points left out, with what that costs`,
      columns: [column('Point', 2), column('What leaving it out costs', 5)],
      rows: plan.leftOut.map(({ stop, cost }): Row => ({ cells: [stopPlace(context, stop), said(cost)], entries })),
      none: `Round ${round}: no point was left out for want of budget.`,
    }),
  ]
}

/** A chance short of certain is never written as certain. */
function chanceWords(share: number): string {
  return share > 0.99 && share < 1 ? 'more than 99 %' : `${Math.round(100 * share)} %`
}

function reasonCounts(stops: readonly Stop[]): string {
  const counts = new Map<string, number>()
  for (const stop of stops)
    for (const obligation of new Set(stop.reasons.map((reason) => reason.obligation)))
      counts.set(obligation, (counts.get(obligation) ?? 0) + 1)
  return [...counts].map(([obligation, count]) => `${obligation} ${count}`).join(', ')
}

function stopRow(
  context: ReportContext,
  { stop, number, entries }: { stop: Stop; number: number; entries: readonly number[] },
): Row {
  const { said, redacted } = context
  const samples = stop.samples.map(
    ({ label, sampleKind }) => `${label === undefined ? '' : `${label} `}${SAMPLE_KIND_WORDS[sampleKind]}`,
  )
  const reasons = redacted ? [] : [stop.reasons.map(({ text }) => said(text)).join(' ')]
  return { cells: [`${number}`, stopPlace(context, stop), samples.join('\n'), ...reasons], entries }
}

/** A stop by the name of its component, or as the plan calls it where it has none, as a field blank. */
export function stopPlace({ placeWords, redacted }: ReportContext, stop: Pick<Stop, 'component' | 'title'>): string {
  if (redacted && stop.component === undefined) return 'field blank or other point'
  return placeWords({ words: stop.title, component: stop.component })
}

function addedTable(context: ReportContext): Block {
  const { state, numbersOf, said } = context
  return table({
    caption: 'Stops that no plan had',
    columns: [column('Round', 0.7), column('Point', 2), column('Reason', 4)],
    rows: state.fieldwork.addedStops.map((entry) => ({
      cells: [entry.body.round, stopPlace(context, entry.body.stop), said(entry.body.reason)],
      entries: numbersOf(entry),
    })),
    none: 'None.',
  })
}
