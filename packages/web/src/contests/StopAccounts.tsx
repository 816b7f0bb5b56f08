import { openAccounts } from '@rillmark/casebook/contests/open-accounts.ts'
import { Link } from '@tanstack/react-router'
import type { ReactNode } from 'react'
import { Note } from '../kit/Note.tsx'
import { useDerived, useInvestigation } from '../store/investigation.tsx'

/** Says at a stop that two devices tell it differently, and where to settle it. Nothing where all agree. */
export function StopAccounts({ at }: { readonly at: { readonly round: string; readonly stop: string } }): ReactNode {
  const { id: investigation } = useInvestigation()
  const here = useDerived(openAccounts).filter((each) => each.at?.round === at.round && each.at.stop === at.stop)
  if (here.length === 0) return null
  return (
    <Note kind="warn">
      Two devices tell this stop differently.{' '}
      <Link to="/i/$investigation/record" params={{ investigation }}>
        Settle it in Record
      </Link>
    </Note>
  )
}
