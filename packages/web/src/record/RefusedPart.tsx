import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { entryWords } from '@rillmark/casebook/record/entry-words.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { fieldsOf, type NamedField } from '../form/field-spec.ts'
import { labelAt } from '../form/label-at.ts'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { useDevice } from '../store/device.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { AmendDialog } from './AmendDialog.tsx'
import { LetGoDialog } from './LetGoDialog.tsx'
import { RecordAgain } from './RecordAgain.tsx'

export interface Refused {
  readonly entry: Entry
  readonly issues: readonly Issue[]
}

/** Entries of this device the server would not take: each stays, with the reasons, until a person settles it. */
export function RefusedPart({ refused }: { readonly refused: readonly Refused[] }): ReactNode {
  const { device } = useInvestigation()
  // written under the name this browser had before it was revoked: no server takes that key any more
  const former = refused.filter(
    ({ entry, issues }) => entry.device !== device && issues.some(({ path }) => path === 'device'),
  )
  if (refused.length === 0) return null
  return (
    <section className="record-refused" aria-label="Refused by the server">
      <h2>{refused.length === 1 ? '1 entry was refused' : `${refused.length} entries were refused`} by the server</h2>
      <p className="quiet">
        Kept on this device alone, and counted in nothing. Write it again so that it is taken, or let it go with a
        reason.
      </p>
      {former.length > 0 && <RecordAgain refused={former} />}
      <ul>
        {refused.map((each) => (
          <RefusedEntry key={each.entry.id} refused={each} />
        ))}
      </ul>
    </section>
  )
}

function RefusedEntry({ refused }: { readonly refused: Refused }): ReactNode {
  const { id: investigation } = useInvestigation()
  const device = useDevice()
  const [open, setOpen] = useState<'again' | 'let go'>()
  const { entry, issues } = refused
  const fields = useMemo(() => fieldsOf(KINDS[entry.kind].body), [entry.kind])
  const close = (): void => setOpen(undefined)
  const settle = (): void => void device.settle({ investigation, entry: entry.id })
  return (
    <li>
      <p>
        <b>{KINDS[entry.kind].title}</b> <span className="quiet">{entryWords(entry)}</span>
      </p>
      <p className="faint">
        {entry.author}, {wallClock(entry)} {entry.offset}
      </p>
      <ul className="record-reasons">
        {issues.map((issue) => (
          <li key={`${issue.path} ${issue.expected}`}>
            {placeWords(fields, issue)}expected {issue.expected}, received {issue.received}
          </li>
        ))}
      </ul>
      <ButtonRow>
        <Button kind="primary" onPress={() => setOpen('again')}>
          Write it again
        </Button>
        <Button kind="danger" onPress={() => setOpen('let go')}>
          Let it go
        </Button>
      </ButtonRow>
      {open === 'again' && <AmendDialog entry={entry} mode="again" onClose={close} />}
      {open === 'let go' && <LetGoDialog refused={refused} onClose={close} onLetGo={settle} />}
    </li>
  )
}

/** The field an issue is about, as the forms call it. */
function placeWords(fields: readonly NamedField[], { path }: Issue): string {
  const { label } = labelAt(fields, path.replace(/^body\.?/, ''))
  return label === '' ? '' : `${label}: `
}
