import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import type { Plan, Stop } from '@rillmark/casebook/plan/plan-file.ts'
import { alignedLines, sectionLines } from './table-lines.ts'

/** A plan as people read it in a terminal. */
export function planTable(plan: Plan): string {
  const { totals, budget } = plan
  const lines = [
    `Sampling plan for ${plan.system}`,
    `${totals.samples} samples of at most ${budget.samples} · ${totals.outlets} outlets · ${plan.stops.length} stops · ${totals.hoursPerTeam.toFixed(1)} h a team`,
    '',
    ...stopLines(plan.stops),
    '',
    'Chance to detect, if colonised were',
    ...plan.scenarios.map(
      ({ words, detectionProbability }) => `  ${percent(detectionProbability).padStart(7)}  ${words}`,
    ),
    ...(plan.weighed === undefined ? [] : [`  ${percent(plan.weighed).padStart(7)}  weighed by the prior given`]),
    '',
    'What it could miss',
    ...plan.couldHide.map((line) => `  ${line}`),
    ...sectionLines(
      'Left out',
      plan.leftOut.map(({ stop, cost }) => `${stop.title}: ${cost}`),
    ),
    ...sectionLines('Notes', plan.notes ?? []),
  ]
  return `${lines.join('\n')}\n`
}

const percent = (share: number): string => (share > 0.999 && share < 1 ? '>99.9 %' : `${(share * 100).toFixed(1)} %`)

function stopLines(stops: readonly Stop[]): string[] {
  const rows = stops.map((stop, index) => [
    String(index + 1),
    String(stop.team ?? 1),
    stop.floor === undefined ? '' : String(stop.floor),
    stop.riser ?? '',
    stop.title,
    stop.samples.map(({ sampleKind }) => SAMPLE_KIND_WORDS[sampleKind]).join(', '),
    stop.reasons.map(({ obligation }) => obligation).join(', '),
  ])
  const head = ['No', 'Team', 'Floor', 'Riser', 'Point', 'Samples', 'Why']
  return alignedLines([head, ...rows])
}
