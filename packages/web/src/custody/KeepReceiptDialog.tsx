import type { ReactNode } from 'react'
import { Caution } from '../kit/Caution.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { KeepReceipt } from '../entry/KeepReceipt.tsx'

/** Gives a receipt of one sample or box to keep. */
export function KeepReceiptDialog({
  label,
  onClose,
}: {
  readonly label: string
  readonly onClose: () => void
}): ReactNode {
  return (
    <Dialog title={`Receipt of ${label}, to keep`} open onClose={onClose}>
      <div className="stack">
        <p>Everything the record says of {label}, each entry with its signature and proved to be in the record.</p>
        <KeepReceipt label={label} />
        <Caution>
          It tells what those entries tell, with names and places. Look at the page before you hand it on.
        </Caution>
      </div>
    </Dialog>
  )
}
