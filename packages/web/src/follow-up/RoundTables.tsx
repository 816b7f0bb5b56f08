import { counted } from '@rillmark/casebook/units/counted.ts'
import { daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import type { FollowUpRound } from '@rillmark/science/follow-up/schedule.ts'
import type { RoundOutcome } from '@rillmark/casebook/follow-up/round-outcomes.ts'
import type { ReactNode } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { Tag, type TagProps } from '../kit/Tag.tsx'

const ROUND_TAGS: Record<FollowUpRound['state'], Pick<TagProps, 'shape' | 'kind'> & { words: string }> = {
  waiting: { shape: 'open', kind: 'faint', words: 'to come' },
  due: { shape: 'square', kind: 'accent', words: 'due' },
  late: { shape: 'triangle', kind: 'bad', words: 'late' },
  sampled: { shape: 'half', words: 'awaiting the laboratory' },
  negative: { shape: 'full', words: 'negative' },
}

/** The rounds the rule asks for, with their windows and how each stands. */
export function ScheduleTable({ rounds }: { readonly rounds: readonly FollowUpRound[] }): ReactNode {
  return (
    <DataTable
      caption={`${rounds.length} rounds of the rule`}
      captionHidden
      rows={rounds}
      rowId={({ number }) => String(number)}
      columns={[
        { id: 'number', head: 'Round', cell: ({ number }) => `Round ${number}` },
        { id: 'phase', head: 'Phase', cell: ({ phase }) => (phase === 'first sample' ? phase : `phase ${phase}`) },
        { id: 'due', head: 'Due', cell: ({ dueOn }) => dueOn },
        {
          id: 'window',
          head: 'Counts from–to',
          cell: ({ earliestOn, latestOn }) => (earliestOn === latestOn ? earliestOn : `${earliestOn} – ${latestOn}`),
        },
        { id: 'taken', head: 'Sampled', cell: ({ collectedOn }) => collectedOn ?? <span className="faint">–</span> },
        {
          id: 'state',
          head: 'State',
          cell: ({ state, collectedOn, latestOn }) => {
            const { words, ...look } = ROUND_TAGS[state]
            const late = collectedOn === undefined ? 0 : daysBetween(latestOn, collectedOn)
            return <Tag {...look}>{late > 0 ? `${words}, sampled ${counted(late, 'day')} late` : words}</Tag>
          },
        },
      ]}
    />
  )
}

const OUTCOME_TAGS: Record<RoundOutcome['outcome'], Pick<TagProps, 'shape' | 'kind'>> = {
  negative: { shape: 'full' },
  positive: { shape: 'cross', kind: 'bad' },
  pending: { shape: 'half' },
  'not interpretable': { shape: 'dashed', kind: 'warn' },
  begun: { shape: 'square', kind: 'accent' },
  'not sampled': { shape: 'open', kind: 'faint' },
}

/** Every adopted round and what came of it. */
export function OutcomeTable({ outcomes }: { readonly outcomes: readonly RoundOutcome[] }): ReactNode {
  return (
    <DataTable
      caption={counted(outcomes.length, 'adopted round')}
      captionHidden
      rows={outcomes}
      rowId={({ round }) => round}
      columns={[
        { id: 'round', head: 'Round', cell: ({ round, purpose }) => `${round}, ${purpose}` },
        {
          id: 'taken',
          head: 'Sampled',
          cell: ({ collectedOn, scheduledOn }) =>
            collectedOn ?? <span className="faint">{scheduledOn === undefined ? '–' : `planned ${scheduledOn}`}</span>,
        },
        { id: 'samples', head: 'Samples', cell: ({ labels }) => labels.length, numeric: true },
        { id: 'outcome', head: 'Outcome', cell: ({ outcome }) => <Tag {...OUTCOME_TAGS[outcome]}>{outcome}</Tag> },
        { id: 'why', head: 'Because', cell: ({ reason }) => reason },
      ]}
      empty={<p className="quiet">No round is adopted yet.</p>}
    />
  )
}
