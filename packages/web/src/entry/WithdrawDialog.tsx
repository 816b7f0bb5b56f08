import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'

/** Takes an entry out of what counts, with a reason; the entry stays in the record. */
export function WithdrawDialog(props: {
  readonly id: string
  readonly words: string
  readonly onClose: () => void
}): ReactNode {
  const { propose } = useInvestigation()
  const [reason, setReason] = useState('')
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const withdraw = async (): Promise<void> => {
    const proposed = await propose('entry.withdrawn', {}, { corrects: { entry: props.id, reason } })
    if (proposed.ok) props.onClose()
    else setIssues(proposed.issues)
  }
  return (
    <Dialog
      title={`Withdraw ${props.words}?`}
      open
      onClose={props.onClose}
      actions={
        <>
          <Button kind="danger" disabled={reason.trim() === ''} onPress={() => void withdraw()}>
            Withdraw
          </Button>
          <Button onPress={props.onClose}>Keep it</Button>
        </>
      }
    >
      <div className="form">
        <p>It no longer counts in anything derived. The entry and your reason stay in the record.</p>
        <ProblemList problems={issues} />
        <TextField label="Reason" value={reason} onChange={setReason} required width="full" focusFirst />
      </div>
    </Dialog>
  )
}
