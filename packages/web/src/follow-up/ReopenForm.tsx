import { type ReactNode, useState } from 'react'
import { TextArea } from '../kit/TextArea.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useWriting } from '../store/use-writing.ts'

/** Opens a closed investigation again, with the reason. */
export function ReopenForm(props: { readonly because: readonly string[]; readonly onClose: () => void }): ReactNode {
  const { issues, busy, write } = useWriting()
  const [reason, setReason] = useState(() => props.because.join('; '))
  const reopen = async (): Promise<void> => {
    if (await write('follow-up.reopened', { reason })) props.onClose()
  }
  return (
    <WritingDialog
      title="Reopen the investigation"
      act="Reopen"
      issues={issues}
      busy={busy}
      onWrite={reopen}
      onClose={props.onClose}
    >
      <TextArea label="Reason" value={reason} onChange={setReason} required />
    </WritingDialog>
  )
}
