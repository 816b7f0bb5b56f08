import { disagreeingDuplicates } from '@rillmark/casebook/findings/duplicate-pairs.ts'
import { sampleRows } from '@rillmark/casebook/findings/sample-rows.ts'
import { resultWords } from '@rillmark/casebook/units/result-words.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type ReactNode, useState } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { Note } from '../kit/Note.tsx'
import { Tag } from '../kit/Tag.tsx'
import { useShow } from '../shell/useShow.ts'
import { useDerived } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { ResultDetail } from './ResultDetail.tsx'

const linesOf = (state: InvestigationState) =>
  sampleRows(state).flatMap((sample) => sample.results.map((result) => ({ sample, ...result })))

const disagreementsOf = (state: InvestigationState) => disagreeingDuplicates(sampleRows(state))

const OUTCOMES = {
  positive: { shape: 'full', kind: 'bad', words: 'detected' },
  negative: { shape: 'open', kind: 'plain', words: 'not detected' },
  'not interpretable': { shape: 'cross', kind: 'warn', words: 'not interpretable' },
} as const

/** Every result in force; one selected shows all its versions and what the file said. */
export function ResultsTable(): ReactNode {
  const lines = useDerived(linesOf)
  const disagreements = useDerived(disagreementsOf)
  const show = useShow()
  const { units } = usePreferences()
  const [picked, setPicked] = useState(() => lines.find(({ entry }) => entry.body.label === show)?.entry.id)
  const selected = lines.find(({ entry }) => entry.id === picked)
  return (
    <>
      {disagreements.map(({ words, duplicate }) => (
        <Note key={duplicate.label} kind="warn">
          {words}. Look at how both bottles were taken, carried and read.
        </Note>
      ))}
      <DataTable
        caption={`${lines.length} results`}
        rows={lines}
        rowId={({ entry }) => entry.id}
        selectedId={picked}
        onSelect={setPicked}
        maxHeight="32rem"
        columns={[
          {
            id: 'label',
            head: 'Sample',
            cell: (line) => <SampleCell {...line} />,
            sort: ({ sample }) => sample.label,
          },
          { id: 'place', head: 'Place', cell: ({ sample }) => sample.place, sort: ({ sample }) => sample.place },
          { id: 'kind', head: 'Kind', cell: ({ sample }) => sample.kindWords, sort: ({ sample }) => sample.kindWords },
          {
            id: 'value',
            head: 'Result',
            cell: ({ entry }) => resultWords(entry.body.value, { method: entry.body.method, units }),
          },
          {
            id: 'outcome',
            head: 'Found',
            cell: ({ outcome, entry }) => (
              <OutcomeTag outcome={outcome} half={entry.body.halfLimitSuspected === true} />
            ),
            sort: ({ outcome }) => outcome,
          },
          {
            id: 'species',
            head: 'Species',
            cell: ({ entry }) =>
              [entry.body.species, entry.body.serogroup].filter((part) => part !== undefined).join(' sg '),
          },
          {
            id: 'reported',
            head: 'Reported',
            cell: ({ entry }) => entry.body.reportedOn ?? '',
            sort: ({ entry }) => entry.body.reportedOn,
          },
          {
            id: 'status',
            head: 'Status',
            cell: ({ entry }) => (entry.amendments > 0 ? `amended ${entry.amendments}×` : entry.body.status),
          },
        ]}
      />
      {selected !== undefined && <ResultDetail key={selected.entry.id} entry={selected.entry} />}
    </>
  )
}

/** The sample, and where the result is on a part of it, which and for whom. */
function SampleCell({ sample, part }: Pick<ReturnType<typeof linesOf>[number], 'sample' | 'part'>): ReactNode {
  return (
    <span>
      <span className="mono">{sample.label}</span>
      {part !== undefined && (
        <span className="faint result-part">
          on the part {part.label}, for {part.to.name}
        </span>
      )}
    </span>
  )
}

function OutcomeTag({ outcome, half }: { readonly outcome: keyof typeof OUTCOMES; readonly half: boolean }): ReactNode {
  const { shape, kind, words } = OUTCOMES[outcome]
  return (
    <Tag shape={shape} kind={kind}>
      {half ? 'half a limit' : words}
    </Tag>
  )
}
