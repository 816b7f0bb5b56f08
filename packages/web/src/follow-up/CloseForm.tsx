import { given } from '@rillmark/casebook/entry/given.ts'
import { scheduleOn } from '@rillmark/casebook/follow-up/follow-up-view.ts'
import { type ReactNode, useState } from 'react'
import { DateField } from '../kit/DateField.tsx'
import { Note } from '../kit/Note.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { typedDateIssue } from '../kit/typed-date.ts'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { textIn } from '../store/typed-values.ts'
import { useWriting } from '../store/use-writing.ts'

/** Closes the investigation: because the rule is met, or against the rule with the reason. Which of the two follows from the record. */
export function CloseForm({ today, onClose }: { readonly today: string; readonly onClose: () => void }): ReactNode {
  const { state } = useInvestigation()
  const { issues, busy, write } = useWriting()
  const [closedOn, setClosedOn] = useState(today)
  const [reason, setReason] = useState('')
  const closing = typedDateIssue(closedOn) === undefined ? scheduleOn(state, closedOn)?.closing : undefined
  const met = closing?.met ?? false
  const close = async (): Promise<void> => {
    const override = met ? {} : given({ overrideReason: textIn(reason) })
    if (await write('follow-up.closed', { closedOn, ruleMet: met, ...override })) onClose()
  }
  return (
    <WritingDialog
      title="Close the investigation"
      act={met ? 'Close: the rule is met' : 'Close although the rule is not met'}
      issues={issues}
      busy={busy}
      onWrite={close}
      onClose={onClose}
    >
      <DateField label="Closed on" value={closedOn} onChange={setClosedOn} required />
      {met ? (
        <Note>The rule is met: {closing?.reason}.</Note>
      ) : (
        <>
          <Note kind="warn">
            The rule is not met: {closing?.reason ?? 'no follow-up rule was started'}. The report will say that it was
            closed all the same, and why.
          </Note>
          <TextArea label="Why it is closed all the same" value={reason} onChange={setReason} required />
        </>
      )}
    </WritingDialog>
  )
}
