import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useWriting } from '../store/use-writing.ts'

/** Takes an entry out of what counts, with a reason; the entry stays in the record. */
export function WithdrawDialog(props: {
  readonly id: string
  readonly words: string
  readonly onClose: () => void
}): ReactNode {
  const { issues, busy, write } = useWriting()
  const [reason, setReason] = useState('')
  const withdraw = async (): Promise<void> => {
    if (await write('entry.withdrawn', {}, { corrects: { entry: props.id, reason } })) props.onClose()
  }
  return (
    <Dialog
      title={`Withdraw ${props.words}?`}
      open
      onClose={props.onClose}
      actions={
        <>
          <Button kind="danger" busy={busy} disabled={reason.trim() === ''} onPress={() => void withdraw()}>
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
