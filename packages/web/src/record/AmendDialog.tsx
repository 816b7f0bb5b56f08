import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type BodyOf, type Kind, KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { Link } from '@tanstack/react-router'
import { type ReactNode, useMemo, useState } from 'react'
import { groupDraft, valueOf } from '../form/draft.ts'
import { fieldsOf } from '../form/field-spec.ts'
import { SchemaForm } from '../form/SchemaForm.tsx'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'

export interface AmendDialogProps {
  readonly entry: Entry
  /** `amend` writes a new version of it; `again` writes a refused one anew. */
  readonly mode: 'amend' | 'again'
  readonly onClose: () => void
}

/** Beyond this a form is no help: such entries (a building, a plan) have a screen of their own. */
const LARGEST_FORM = 12_000

/** Any entry's body in a form, and the reason for changing it. */
export function AmendDialog(props: AmendDialogProps): ReactNode {
  if (props.mode === 'amend' && JSON.stringify(props.entry.body).length > LARGEST_FORM) return <TooLarge {...props} />
  return <AmendForm {...props} />
}

function AmendForm({ entry, mode, onClose }: AmendDialogProps): ReactNode {
  const { propose } = useInvestigation()
  const fields = useMemo(() => fieldsOf(KINDS[entry.kind].body), [entry.kind])
  const [draft, setDraft] = useState(() => groupDraft(fields, entry.body))
  const [reason, setReason] = useState(mode === 'again' ? (entry.corrects?.reason ?? '') : '')
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const target = mode === 'amend' ? entry.id : entry.corrects?.entry
  const title = KINDS[entry.kind].title
  const write = async (): Promise<void> => {
    const body = (valueOf({ kind: 'group', fields }, draft) ?? {}) as BodyOf<Kind>
    const corrects = target === undefined ? undefined : { entry: target, reason }
    const again = mode === 'again' ? { instead: entry } : {}
    const proposed = await propose(entry.kind, body, corrects === undefined ? again : { ...again, corrects })
    if (!proposed.ok) return setIssues(proposed.issues)
    onClose()
  }
  const at = new Map(issues.map(({ path, expected }) => [path.replace(/^body\.?/, ''), `Expected ${expected}.`]))
  return (
    <Dialog
      title={mode === 'amend' ? `Amend: ${title}` : `Write again: ${title}`}
      open
      onClose={onClose}
      mustAnswer
      size="wide"
      actions={
        <>
          <Button kind="primary" disabled={target !== undefined && reason.trim() === ''} onPress={() => void write()}>
            {mode === 'amend' ? 'Record the amendment' : 'Record it again'}
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        {mode === 'amend' && (
          <p className="quiet">The version before stays in the record, beside this one and your reason.</p>
        )}
        {mode === 'again' && <p className="quiet">It bears the time it was first written: {wallClock(entry)}.</p>}
        <ProblemList problems={issues} />
        {target !== undefined && (
          <TextField label="Reason" value={reason} onChange={setReason} required width="full" focusFirst />
        )}
        <SchemaForm fields={fields} draft={draft} onChange={setDraft} issueAt={(path) => at.get(path)} />
      </div>
    </Dialog>
  )
}

function TooLarge({ entry, onClose }: AmendDialogProps): ReactNode {
  const { id } = useInvestigation()
  const { step, title } = KINDS[entry.kind]
  return (
    <Dialog title={`Amend: ${title}`} open onClose={onClose}>
      <p>
        This entry holds too much for a form.{' '}
        <Link to={`/i/$investigation/${step}`} params={{ investigation: id }}>
          Change it on its own screen
        </Link>
        , where what you change becomes a new entry.
      </p>
    </Dialog>
  )
}
