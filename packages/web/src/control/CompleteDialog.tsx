import { given } from '@rillmark/casebook/entry/given.ts'
import type { MeasureView } from '@rillmark/casebook/control/control-view.ts'
import { beforeInitialSamples } from '@rillmark/casebook/control/initial-round.ts'
import { type ReactNode, useState } from 'react'
import { DateField } from '../kit/DateField.tsx'
import { Note } from '../kit/Note.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { typedDateIssue } from '../kit/typed-date.ts'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { textIn } from '../store/typed-values.ts'
import { useWriting } from '../store/use-writing.ts'

const OUTCOMES = [
  { id: 'carried out', label: 'carried out' },
  { id: 'partly', label: 'partly' },
  { id: 'dropped', label: 'dropped' },
] as const

/** Ends a measure: carried out only when every place proved it, else partly or dropped with the reason. */
export function CompleteDialog(props: {
  readonly view: MeasureView
  readonly today: string
  readonly onClose: () => void
}): ReactNode {
  const { view, today, onClose } = props
  const { state } = useInvestigation()
  const { issues, busy, write } = useWriting()
  const unproved = view.mustBeProved ? view.missing.length : 0
  const [outcome, setOutcome] = useState<(typeof OUTCOMES)[number]['id']>(unproved > 0 ? 'partly' : 'carried out')
  const [completedOn, setCompletedOn] = useState(today)
  const [reason, setReason] = useState('')
  const early = typedDateIssue(completedOn) === undefined ? beforeInitialSamples(state, completedOn) : undefined
  const changesWater = view.stage === 'remediation'
  const complete = async (): Promise<void> => {
    const body = { measure: view.id, completedOn, outcome, ...given({ reason: textIn(reason) }) }
    if (await write('measure.completed', body)) onClose()
  }
  return (
    <WritingDialog
      title={`Complete: ${view.title}`}
      act="Complete it"
      issues={issues}
      busy={busy}
      onWrite={complete}
      onClose={onClose}
    >
      {unproved > 0 && (
        <Note kind="warn">
          {unproved} of {view.places.length} places have no proof that reached the target, so it is partly carried out
          until they have.
        </Note>
      )}
      <RadioRow label="Outcome" value={outcome} onChange={setOutcome} choices={OUTCOMES} />
      <DateField label="Completed on" value={completedOn} onChange={setCompletedOn} required />
      {changesWater && early !== undefined && (
        <Note kind="warn">
          Sampling comes before remediation, and {early}. It can be recorded with the reason; later samples no longer
          show what people met.
        </Note>
      )}
      <TextArea
        label="Reason"
        hint="Needed when it was done in part, dropped, or before the initial samples."
        value={reason}
        onChange={setReason}
      />
    </WritingDialog>
  )
}
