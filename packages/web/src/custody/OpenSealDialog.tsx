import { type ReactNode, useState } from 'react'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useWriting } from '../store/use-writing.ts'
import type { BoxDialogProps } from './box-dialog.ts'
import { WorkerFields } from './WorkerFields.tsx'

/** Opens a seal on the way, by whom and why. */
export function OpenSealDialog({ box, onClose }: BoxDialogProps): ReactNode {
  const { issues, busy, write } = useWriting()
  const [by, setBy] = useState({ name: box.holder.name, role: box.holder.role === 'opened it' ? '' : box.holder.role })
  const [reason, setReason] = useState('')
  const act = async (): Promise<void> => {
    if (await write('seal.opened', { consignment: box.code, by, reason })) onClose()
  }
  return (
    <WritingDialog
      title={`Open seal ${box.seal ?? ''} of ${box.code}`}
      act="Open the seal"
      issues={issues}
      busy={busy}
      onWrite={act}
      onClose={onClose}
    >
      <WorkerFields label="Opened by" value={by} onChange={setBy} />
      <TextField label="Reason" value={reason} onChange={setReason} required width="full" focusFirst />
    </WritingDialog>
  )
}
