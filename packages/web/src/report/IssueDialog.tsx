import type { Variant } from '@rillmark/casebook/report/model.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { Note } from '../kit/Note.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { saveDocument } from '../store/fetch-document.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { useWriting } from '../store/use-writing.ts'
import { prepareReport } from './issue-report.ts'

/** Issues a report: the bytes are saved here, and the record keeps their hash, the head they speak of and to whom they went. */
export function IssueDialog({
  variant,
  onClose,
}: {
  readonly variant: Variant
  readonly onClose: () => void
}): ReactNode {
  const { id, state } = useInvestigation()
  const { units } = usePreferences()
  const { say } = useToasts()
  const { issues, write } = useWriting()
  const [to, setTo] = useState('')
  const [working, setWorking] = useState(false)
  const [message, setMessage] = useState<string>()
  const issue = async (): Promise<void> => {
    setWorking(true)
    setMessage(undefined)
    const prepared = await prepareReport({ investigation: id, variant, units, entries: state.record.entries.length })
    if (!prepared.ok) setMessage(prepared.message)
    else if (await write('report.issued', { ...prepared.body, issuedTo: to })) {
      saveDocument(prepared.document)
      say(`Issued to ${to}. The file was saved, and the record keeps its hash.`)
      onClose()
    }
    setWorking(false)
  }
  return (
    <Dialog
      title={variant === 'full' ? 'Issue the report' : 'Issue the redacted report'}
      open
      onClose={onClose}
      actions={
        <>
          <Button kind="primary" busy={working} disabled={to.trim() === ''} onPress={() => void issue()}>
            Issue and save
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <p>
          The file is saved on this device. The record keeps its SHA-256 and the head it speaks of, so that anyone can
          show later that it was not changed.
        </p>
        {variant === 'full' ? (
          <Note>
            It holds case codes, dates and rooms. For anyone without a right to health data, issue the redacted one.
          </Note>
        ) : (
          <Note kind="warn">Read it through first: a person may still be known by what was typed in other words.</Note>
        )}
        <TextField
          label="Issued to"
          hint="An office or a person at work."
          value={to}
          onChange={setTo}
          required
          width="full"
        />
        {message !== undefined && <Note kind="bad">{message}</Note>}
        <ProblemList problems={issues} />
      </div>
    </Dialog>
  )
}
