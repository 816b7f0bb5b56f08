import type { CriteriaSet } from '@rillmark/casebook/criteria/criteria-set.ts'
import { type BandCounts, bandCounts } from '@rillmark/casebook/findings/band-counts.ts'
import { chosenCriteria } from '@rillmark/casebook/findings/chosen-criteria.ts'
import type { Focus } from '@rillmark/casebook/findings/focus-rows.ts'
import type { SampleRow } from '@rillmark/casebook/findings/sample-rows.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { DataTable } from '../kit/DataTable.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { Note } from '../kit/Note.tsx'
import { Section } from '../kit/Section.tsx'
import { Tag } from '../kit/Tag.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { CriteriaDialog } from './CriteriaDialog.tsx'

interface PartProps {
  readonly rows: readonly SampleRow[]
  readonly onFocus: (focus: Focus) => void
}

/** The results held against the criteria the user chose, with each band's action, source and how it is known. */
export function CriteriaPart({ rows, onFocus }: PartProps): ReactNode {
  const { state } = useInvestigation()
  const [open, setOpen] = useState(false)
  const chosen = chosenCriteria(state)
  const choose = (
    <Button kind="text" onPress={() => setOpen(true)}>
      {chosen.kind === 'none' ? 'Choose criteria' : 'Choose others'}
    </Button>
  )
  return (
    <Section title="Criteria" aside={choose}>
      {chosen.kind === 'none' && (
        <p className="quiet">No criteria are chosen. Counts have no band until you say whose rules apply.</p>
      )}
      {chosen.kind === 'missing' && (
        <Note kind="warn">
          The record names {chosen.id}, version {chosen.version}, but {chosen.reason}. No result is judged.
        </Note>
      )}
      {chosen.kind === 'chosen' && <Chosen set={chosen.set} rows={rows} onFocus={onFocus} />}
      {open && <CriteriaDialog onClose={() => setOpen(false)} />}
    </Section>
  )
}

function Chosen({ set, rows, onFocus }: PartProps & { readonly set: CriteriaSet }): ReactNode {
  const counts = useMemo(() => bandCounts(rows, set), [rows, set])
  const scale = set.scales.find(({ water }) => water === 'potable')
  const focusOn = (words: string, labels: readonly string[]): void => onFocus({ kind: 'samples', words, labels })
  return (
    <>
      <p>
        {set.title}, {set.jurisdiction}, version {set.version}, read on {set.date}.{' '}
        <Tag
          shape={set.status === 'verified' ? 'check' : 'triangle'}
          kind={set.status === 'verified' ? 'plain' : 'warn'}
        >
          {set.status}
        </Tag>
      </p>
      {scale !== undefined && (
        <DataTable
          caption={`${scale.title}, ${scale.unit}`}
          rows={counts.bands}
          rowId={({ band }) => band.id}
          onSelect={(id) => {
            const line = counts.bands.find(({ band }) => band.id === id)
            if (line !== undefined) focusOn(`${set.title}: ${line.band.label}`, line.labels)
          }}
          columns={[
            { id: 'band', head: 'Band', cell: ({ band }) => band.label },
            { id: 'n', head: 'Results', numeric: true, cell: ({ labels }) => labels.length },
            { id: 'action', head: 'Calls for', cell: ({ band }) => band.action },
          ]}
        />
      )}
      <Leftovers counts={counts} onFocus={focusOn} />
      <ShareLine counts={counts} />
      <Sources counts={counts} />
      {counts.caveats.length > 0 && <p className="faint">{counts.caveats.join(' · ')}</p>}
    </>
  )
}

function Leftovers({
  counts,
  onFocus,
}: {
  readonly counts: BandCounts
  readonly onFocus: (words: string, labels: readonly string[]) => void
}): ReactNode {
  const lines = [
    ...counts.undecided.map((line) => ({ ...line, head: 'between bands' })),
    ...counts.outside.map((line) => ({ ...line, head: 'not judged' })),
  ]
  if (lines.length === 0) return null
  return (
    <ul className="fact-list" aria-label="Results without a band">
      {lines.map(({ head, reason, labels }) => (
        <li key={head + reason}>
          <button type="button" className="fact-line" onClick={() => onFocus(`${head}: ${reason}`, labels)}>
            {labels.length} {head}: {reason}
          </button>
        </li>
      ))}
    </ul>
  )
}

function ShareLine({ counts }: { readonly counts: BandCounts }): ReactNode {
  if (counts.share === undefined) return null
  const { judgement, positive, total } = counts.share
  if (judgement.kind !== 'band') return <p className="quiet">Share: {judgement.reason}.</p>
  return (
    <p>
      Share: {positive} of {total} water samples, <b>{judgement.band.label}</b>. {judgement.band.action}{' '}
      <span className="faint">
        Counted are {judgement.of}; {judgement.band.source} ({judgement.band.known}).
      </span>
    </p>
  )
}

/** Each source once, with how it is known. */
function Sources({ counts }: { readonly counts: BandCounts }): ReactNode {
  const sources = [...new Set(counts.bands.map(({ band }) => `${band.source} (${band.known})`))]
  return (
    <Disclosure summary="Sources of the bands">
      <ul className="sentences">
        {sources.map((source) => (
          <li key={source} className="quiet">
            {source}
          </li>
        ))}
      </ul>
    </Disclosure>
  )
}
