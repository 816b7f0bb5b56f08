import { CLASSIFICATIONS, LINKS } from '@rillmark/casebook/cases/kinds.ts'
import type { Issue } from '@rillmark/casebook/entry/issue.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { DateField } from '../kit/DateField.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'

const chosen = <Id extends string>(ids: readonly Id[]): { id: Id; label: string }[] =>
  ids.map((id) => ({ id, label: id }))
const ISOLATES = ['kept', 'asked for', 'none taken', 'not known'] as const

/** Records a case, or amends one with a reason. */
export function CaseDialog(props: {
  readonly amends?: EffectiveEntry<'case.recorded'> | undefined
  readonly onClose: () => void
}): ReactNode {
  const { amends, onClose } = props
  const { propose } = useInvestigation()
  const [body, setBody] = useState(() => ({
    code: '',
    classification: 'suspected' as (typeof CLASSIFICATIONS)[number],
    link: 'not judged' as (typeof LINKS)[number],
    isolate: 'not known' as (typeof ISOLATES)[number],
    ...amends?.body,
    onsetDate: amends?.body.onsetDate ?? '',
    notes: amends?.body.notes ?? '',
  }))
  const [reason, setReason] = useState('')
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const set = (change: Partial<typeof body>): void => setBody({ ...body, ...change })

  const save = async (): Promise<void> => {
    const { onsetDate, notes, ...rest } = body
    const given = { ...rest, ...(onsetDate === '' ? {} : { onsetDate }), ...(notes.trim() === '' ? {} : { notes }) }
    const corrects = amends === undefined ? {} : { corrects: { entry: amends.id, reason } }
    const proposed = await propose('case.recorded', given, corrects)
    if (proposed.ok) onClose()
    else setIssues(proposed.issues)
  }

  return (
    <Dialog
      title={amends === undefined ? 'Record a case' : `Amend ${amends.body.code}`}
      open
      onClose={onClose}
      mustAnswer
      actions={<SaveActions onSave={save} onClose={onClose} />}
    >
      <div className="form">
        <ProblemList problems={issues} />
        <FormRow>
          <TextField
            label="Code"
            hint="A code with a number, never a name."
            value={body.code}
            onChange={(code) => set({ code })}
            required
            focusFirst
            width="narrow"
          />
          <DateField
            label="Onset"
            hint="Leave empty while not known."
            value={body.onsetDate}
            onChange={(onsetDate) => set({ onsetDate })}
          />
        </FormRow>
        <RadioRow
          label="Classification"
          value={body.classification}
          onChange={(classification) => set({ classification })}
          choices={chosen(CLASSIFICATIONS)}
        />
        <FormRow>
          <Select
            label="Link to the building"
            value={body.link}
            onChange={(link) => set({ link })}
            choices={chosen(LINKS)}
          />
          <Select
            label="Isolate of the case"
            value={body.isolate}
            onChange={(isolate) => set({ isolate })}
            choices={chosen(ISOLATES)}
          />
        </FormRow>
        <TextArea
          label="Notes"
          hint="Tests, movements, what is still asked. No names, no birth dates."
          value={body.notes}
          onChange={(notes) => set({ notes })}
        />
        {amends !== undefined && (
          <TextField label="Reason for the amendment" value={reason} onChange={setReason} required width="full" />
        )}
      </div>
    </Dialog>
  )
}

function SaveActions({
  onSave,
  onClose,
}: {
  readonly onSave: () => Promise<void>
  readonly onClose: () => void
}): ReactNode {
  return (
    <>
      <Button kind="primary" onPress={() => void onSave()}>
        Record
      </Button>
      <Button onPress={onClose}>Cancel</Button>
    </>
  )
}
