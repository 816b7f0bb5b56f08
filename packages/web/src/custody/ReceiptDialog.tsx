import { type ReactNode, useState } from 'react'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { emptyReceipt, receiptOf } from '../receipt/receipt-draft.ts'
import { ReceiptFields } from '../receipt/ReceiptFields.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { useWriting } from '../store/use-writing.ts'
import type { BoxDialogProps } from './box-dialog.ts'

/** The laboratory takes a box in: by whom, how warm, and every sample accepted but those marked. */
export function ReceiptDialog({ box, onClose }: BoxDialogProps): ReactNode {
  const { state } = useInvestigation()
  const { issues, busy, write, object } = useWriting()
  const [draft, setDraft] = useState(() =>
    emptyReceipt(
      [...state.custody.consignments.values()].findLast(({ received }) => received)?.received?.body.laboratory,
    ),
  )
  const act = async (): Promise<void> => {
    const read = receiptOf(
      draft,
      box.samples.map(({ label }) => label),
    )
    if (!read.ok) return object(read.issues)
    if (await write('consignment.received', { consignment: box.code, ...read.receipt })) onClose()
  }
  return (
    <WritingDialog
      title={`Laboratory receipt of ${box.code}`}
      act="Record the receipt"
      issues={issues}
      busy={busy}
      onWrite={act}
      onClose={onClose}
      size="wide"
    >
      <ReceiptFields
        draft={draft}
        onChange={setDraft}
        samples={box.samples.map(({ label, place }) => ({ label, words: place }))}
        seal={box.seal}
        focusFirst
      />
    </WritingDialog>
  )
}
