import { type ReactNode, useState } from 'react'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useWriting } from '../store/use-writing.ts'

/** Takes a sample out of a box again, with the reason. */
export function UnpackDialog(props: {
  readonly consignment: string
  readonly label: string
  readonly onClose: () => void
}): ReactNode {
  const { consignment, label, onClose } = props
  const { issues, busy, write } = useWriting()
  const [reason, setReason] = useState('')
  const act = async (): Promise<void> => {
    if (await write('sample.unpacked', { consignment, label, reason })) onClose()
  }
  return (
    <WritingDialog
      title={`Take ${label} out of ${consignment}`}
      act="Take it out"
      issues={issues}
      busy={busy}
      onWrite={act}
      onClose={onClose}
    >
      <TextField
        label="Reason"
        value={reason}
        onChange={setReason}
        onEnter={() => void act()}
        required
        width="full"
        focusFirst
      />
    </WritingDialog>
  )
}
