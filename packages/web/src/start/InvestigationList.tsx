import { counted } from '@rillmark/casebook/units/counted.ts'
import { Link } from '@tanstack/react-router'
import { type ReactNode, useCallback, useEffect, useState } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Note } from '../kit/Note.tsx'
import { type InvestigationSummary, useDevice } from '../store/device.tsx'
import { CopyPart } from './CopyPart.tsx'

/** The investigations of this device; teaches the way in while there are none. */
export function InvestigationList(): ReactNode {
  const device = useDevice()
  const [here, setHere] = useState<readonly InvestigationSummary[]>()
  const [there, setThere] = useState<readonly InvestigationSummary[]>()
  const [failed, setFailed] = useState<string>()
  const look = useCallback(() => {
    device.list().then(setHere, (error: unknown) => setFailed(String(error)))
    device.listThere().then(setThere, () => setThere([]))
  }, [device])
  useEffect(() => {
    look()
    return device.onCopies(look)
  }, [device, look])
  if (failed !== undefined)
    return (
      <Note kind="bad">
        The investigations on this device could not be read: {failed}. Allow this address to keep data, then load the
        page again.
      </Note>
    )
  if (here === undefined) return <p className="faint">Looking on this device …</p>
  if (here.length === 0 && there === undefined) return <p className="faint">None on this device. Asking the server …</p>
  const listed = allOf(here, there ?? [])
  if (listed.length === 0)
    return (
      <EmptyState title="None on this device yet">
        <p>
          Start one when a call comes in: a name for the building, and why you were called. Everything else can wait. To
          look around first, open the worked example, an invented care home with five cases.
        </p>
      </EmptyState>
    )
  return (
    <ul className="investigations" aria-label="Investigations on this device">
      {listed.map((one) => (
        <li key={one.id}>
          <Link to="/i/$investigation/brief" params={{ investigation: one.id }} className="investigation-link">
            <b>{one.title}</b>
            <span className="quiet">
              {[one.locality, one.openedOn !== undefined && `opened ${one.openedOn}`]
                .filter((part) => part !== undefined && part !== '' && part !== false)
                .join(' · ')}
            </span>
          </Link>
          <span className="faint">
            {counted(one.entries, { one: 'entry', many: 'entries' })} · {one.kept}
          </span>
          <CopyPart summary={one} onChange={look} />
        </li>
      ))}
    </ul>
  )
}

/** What is here first; what the server has of it is not said twice. */
function allOf(
  here: readonly InvestigationSummary[],
  there: readonly InvestigationSummary[],
): readonly InvestigationSummary[] {
  const known = new Set(here.map(({ id }) => id))
  return [...here, ...there.filter(({ id }) => !known.has(id))]
}
