import { knownSamples } from '@rillmark/casebook/results/known-samples.ts'
import type { RowDecision, Values } from '@rillmark/casebook/results/accept.ts'
import type { ReviewedRow } from '@rillmark/casebook/results/review.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ComboBox } from '../kit/ComboBox.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { Import } from './use-import.ts'
import { draftOf, type ValueDraft, valueOf } from './value-draft.ts'
import { ValueFields } from './ValueFields.tsx'

interface RowDialogProps {
  readonly row: ReviewedRow
  readonly action: RowDecision['action']
  readonly imported: Import
  readonly onClose: () => void
}

const TITLES = { accept: 'Settle', amend: 'Amend with', 'set aside': 'Set aside' } as const

/** A row settled by hand: its label, its values, and always why. */
export function RowDialog({ row, action, imported, onClose }: RowDialogProps): ReactNode {
  const { state } = useInvestigation()
  const [label, setLabel] = useState(row.label)
  const [reason, setReason] = useState('')
  const [drafts, setDrafts] = useState<Readonly<Record<string, ValueDraft>>>(() =>
    Object.fromEntries(
      row.results.map((result) => [result.column, draftOf(result.value ?? suggested(row, result.column))]),
    ),
  )
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const save = (): void => {
    const read = action === 'set aside' ? { values: {}, issues: [] } : valuesOf(drafts)
    if (read.issues.length > 0) return setIssues(read.issues)
    if (label !== row.label)
      imported.change({ relabelled: new Map([...(imported.file?.relabelled ?? []), [row.row, label]]) })
    imported.decide(
      [row.row],
      action === 'set aside' ? { action, reason } : { action, reason, values: changed(row, read.values) },
    )
    onClose()
  }
  const choices = [...knownSamples(state).keys()].map((id) => ({ id, label: id }))
  return (
    <Dialog
      title={`${TITLES[action]} row ${row.row}`}
      open
      size="wide"
      onClose={onClose}
      actions={
        <>
          <Button kind="primary" disabled={reason.trim() === ''} onPress={save}>
            {action === 'set aside' ? 'Set aside' : 'Settle'}
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={issues} />
        {action !== 'set aside' && (
          <ComboBox label="Sample label" value={label} onChange={setLabel} choices={choices} free />
        )}
        {action !== 'set aside' &&
          Object.entries(drafts).map(([column, draft]) => (
            <fieldset key={column} className="question-values-edit">
              <legend>
                {column}: <span className="mono">{row.read.asWritten[column] ?? 'empty'}</span>
              </legend>
              <ValueFields draft={draft} onChange={(next) => setDrafts({ ...drafts, [column]: next })} />
            </fieldset>
          ))}
        <TextField
          label="Why"
          hint="Kept with the result: who said so, or what shows it."
          value={reason}
          onChange={setReason}
          required
          width="full"
          focusFirst={action === 'set aside'}
        />
      </div>
    </Dialog>
  )
}

function suggested(row: ReviewedRow, column: string) {
  return row.reasons.find((reason) => reason.column === column && reason.suggestion !== undefined)?.suggestion
}

function valuesOf(drafts: Readonly<Record<string, ValueDraft>>): { values: Values; issues: Issue[] } {
  const read = Object.entries(drafts).map(([column, draft]) => ({ column, value: valueOf(draft) }))
  return {
    values: Object.fromEntries(read.flatMap(({ column, value }) => (value.ok ? [[column, value.value]] : []))),
    issues: read.flatMap(({ column, value }) =>
      value.ok ? [] : value.issues.map((each) => ({ ...each, path: `${column} ${each.path}` })),
    ),
  }
}

/** Only values that differ from what was read count as settled by hand. */
function changed(row: ReviewedRow, values: Values): Values {
  return Object.fromEntries(
    Object.entries(values).filter(
      ([column, value]) =>
        JSON.stringify(value) !== JSON.stringify(row.results.find((result) => result.column === column)?.value),
    ),
  )
}
