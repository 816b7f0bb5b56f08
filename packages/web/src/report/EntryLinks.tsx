import { entryRuns } from '@rillmark/casebook/report/entry-numbers.ts'
import { Link } from '@tanstack/react-router'
import { Fragment, type ReactNode } from 'react'
import { useInvestigation } from '../store/investigation.tsx'

/** Entry numbers, each going to its entry in the record; scattered ones by their count, first and last. */
export function EntryLinks(props: {
  readonly entries: readonly number[]
  /** after a sentence, where no head says that these are entries */
  readonly named?: boolean
}): ReactNode {
  const { entries, named = false } = props
  const { shortened, runs } = entryRuns(entries)
  if (runs.length === 0) return null
  return (
    <span className="entry-links">
      {named && !shortened && (entries.length === 1 ? 'entry ' : 'entries ')}
      {shortened && `${entries.length} ${named ? 'entries ' : ''}from `}
      {runs.map(([from, to], index) => (
        <Fragment key={from}>
          {index > 0 && ', '}
          <EntryLink number={from} />
          {to > from && (
            <>
              {shortened ? ' to ' : '–'}
              <EntryLink number={to} />
            </>
          )}
        </Fragment>
      ))}
    </span>
  )
}

function EntryLink({ number }: { readonly number: number }): ReactNode {
  const { id, state } = useInvestigation()
  const entry = state.record.entries[number - 1]
  if (entry === undefined) return number
  return (
    <Link
      to="/i/$investigation/record"
      params={{ investigation: id }}
      search={{ show: entry.id }}
      aria-label={`entry ${number}`}
    >
      {number}
    </Link>
  )
}
