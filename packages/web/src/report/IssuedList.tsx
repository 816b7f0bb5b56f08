import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { Link } from '@tanstack/react-router'
import type { ReactNode } from 'react'
import { useInvestigation } from '../store/investigation.tsx'

/** Reports that left the house, the latest first. */
export function IssuedList(): ReactNode {
  const { id, state } = useInvestigation()
  const { issued } = state.report
  if (issued.length === 0) return <p className="quiet">No report has been issued yet.</p>
  return (
    <ul className="report-list">
      {issued.toReversed().map((entry) => (
        <li key={entry.id}>
          <Link to="/i/$investigation/record" params={{ investigation: id }} search={{ show: entry.id }}>
            {wallClock(entry)}
          </Link>{' '}
          {entry.body.variant === 'full' ? 'whole' : 'redacted'}, to {entry.body.issuedTo}; speaks of{' '}
          {entry.body.headSequence} entries
          <span className="mono faint report-hash">SHA-256 {entry.body.sha256}</span>
        </li>
      ))}
    </ul>
  )
}
