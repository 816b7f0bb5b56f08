import { CLASSIFICATIONS, LINKS } from '@rillmark/casebook/cases/kinds.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import { type ReactNode, useState } from 'react'
import { DateField } from '../kit/DateField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useWriting } from '../store/use-writing.ts'

const chosen = <Id extends string>(ids: readonly Id[]): { id: Id; label: string }[] =>
  ids.map((id) => ({ id, label: id }))
const ISOLATES = ['kept', 'asked for', 'none taken', 'not known'] as const

interface CaseDraft {
  readonly code: string
  readonly onsetDate: string
  readonly classification: (typeof CLASSIFICATIONS)[number]
  readonly link: (typeof LINKS)[number]
  readonly isolate: (typeof ISOLATES)[number]
  readonly notes: string
}

const EMPTY: CaseDraft = {
  code: '',
  onsetDate: '',
  classification: 'suspected',
  link: 'not judged',
  isolate: 'not known',
  notes: '',
}

function draftOf(entry: EffectiveEntry<'case.recorded'> | undefined): CaseDraft {
  const { onsetDate = '', notes = '', ...body } = entry?.body ?? EMPTY
  return { ...EMPTY, ...body, onsetDate, notes }
}

/** Records a case, or amends one with a reason. */
export function CaseDialog(props: {
  readonly amends?: EffectiveEntry<'case.recorded'> | undefined
  readonly onClose: () => void
}): ReactNode {
  const { amends, onClose } = props
  const { issues, busy, write } = useWriting()
  const [draft, setDraft] = useState<CaseDraft>(() => draftOf(amends))
  const [reason, setReason] = useState('')

  const save = async (): Promise<void> => {
    const { onsetDate, notes, ...rest } = draft
    const body = { ...rest, ...(onsetDate === '' ? {} : { onsetDate }), ...(notes.trim() === '' ? {} : { notes }) }
    const corrects = amends === undefined ? {} : { corrects: { entry: amends.id, reason } }
    if (await write('case.recorded', body, corrects)) onClose()
  }

  return (
    <WritingDialog
      title={amends === undefined ? 'Record a case' : `Amend ${amends.body.code}`}
      act="Record"
      issues={issues}
      busy={busy}
      onWrite={save}
      onClose={onClose}
    >
      <CaseFields draft={draft} onChange={setDraft} />
      {amends !== undefined && (
        <TextField label="Reason for the amendment" value={reason} onChange={setReason} required width="full" />
      )}
    </WritingDialog>
  )
}

function CaseFields(props: { readonly draft: CaseDraft; readonly onChange: (draft: CaseDraft) => void }): ReactNode {
  const { draft, onChange } = props
  const set = (change: Partial<CaseDraft>): void => onChange({ ...draft, ...change })
  return (
    <>
      <FormRow>
        <TextField
          label="Code"
          hint="A code with a number, never a name."
          value={draft.code}
          onChange={(code) => set({ code })}
          required
          focusFirst
          width="narrow"
        />
        <DateField
          label="Onset"
          hint="Leave empty while not known."
          value={draft.onsetDate}
          onChange={(onsetDate) => set({ onsetDate })}
        />
      </FormRow>
      <RadioRow
        label="Classification"
        value={draft.classification}
        onChange={(classification) => set({ classification })}
        choices={chosen(CLASSIFICATIONS)}
      />
      <FormRow>
        <Select
          label="Link to the building"
          value={draft.link}
          onChange={(link) => set({ link })}
          choices={chosen(LINKS)}
        />
        <Select
          label="Isolate of the case"
          value={draft.isolate}
          onChange={(isolate) => set({ isolate })}
          choices={chosen(ISOLATES)}
        />
      </FormRow>
      <TextArea
        label="Notes"
        hint="Tests, movements, what is still asked. No names, no birth dates."
        value={draft.notes}
        onChange={(notes) => set({ notes })}
      />
    </>
  )
}
