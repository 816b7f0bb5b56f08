import type { ReactNode } from 'react'
import { Dialog } from '../kit/Dialog.tsx'
import type { BoxDialogProps } from './box-dialog.ts'
import { LoggerPart } from './LoggerPart.tsx'

/** Reads what a temperature logger kept of a box. */
export function LoggerDialog({ box, onClose }: BoxDialogProps): ReactNode {
  return (
    <Dialog title={`Read a logger of ${box.code}`} open onClose={onClose} size="wide">
      <LoggerPart box={box} onClose={onClose} />
    </Dialog>
  )
}
