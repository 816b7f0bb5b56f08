import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { ProblemList } from '../kit/ProblemList.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { emptyReceipt, type ReceiptDraft, receiptOf } from '../receipt/receipt-draft.ts'
import { ReceiptFields } from '../receipt/ReceiptFields.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { useWriting } from '../store/use-writing.ts'
import type { BoxDialogProps } from './box-dialog.ts'

const UNDATED = issue('when', { expected: 'when the laboratory received it', received: undefined })

/** A form of the laboratory that could be read in part, and what is wrong with it. */
interface FromFile {
  readonly draft: ReceiptDraft
  readonly problems: readonly Issue[]
}

/** The laboratory takes a box in: by whom, how warm, and every sample accepted but those marked. */
export function ReceiptDialog({ box, onClose, file }: BoxDialogProps & { readonly file?: FromFile }): ReactNode {
  const { state } = useInvestigation()
  const { issues, busy, write, object } = useWriting()
  const [draft, setDraft] = useState(
    () =>
      file?.draft ??
      emptyReceipt(
        [...state.custody.consignments.values()].findLast(({ received }) => received)?.received?.body.laboratory,
      ),
  )
  const act = async (): Promise<void> => {
    const read = receiptOf(
      draft,
      box.samples.map(({ label }) => label),
    )
    // a form was filled in at another time than now
    const undated = file !== undefined && draft.at === '' ? [UNDATED] : []
    if (!read.ok || undated.length > 0) return object([...undated, ...(read.ok ? [] : read.issues)])
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
      {file !== undefined && <ProblemList problems={file.problems} title="Wrong in the file" kind="warn" />}
      <ReceiptFields
        draft={draft}
        onChange={setDraft}
        samples={box.samples.map(({ label, place }) => ({ label, words: place }))}
        seal={box.seal}
        whenNeeded={file !== undefined}
        focusFirst
      />
    </WritingDialog>
  )
}
