import { counted } from '@rillmark/casebook/units/counted.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import type { BoxDialogProps } from './box-dialog.ts'
import { LoggerPart } from './LoggerPart.tsx'
import { useLoggerFile } from './use-logger-file.ts'

/** Reads what a temperature logger kept of a box. */
export function LoggerDialog({ box, onClose }: BoxDialogProps): ReactNode {
  const logger = useLoggerFile(box.code, onClose)
  const { read } = logger
  return (
    <Dialog
      title={`Read a logger of ${box.code}`}
      open
      onClose={onClose}
      size="wide"
      actions={
        read?.ok === true ? (
          <>
            <Button kind="primary" busy={logger.busy} onPress={() => void logger.write()}>
              Write {counted(read.readings.length, 'reading')}
            </Button>
            <Button onPress={onClose}>Cancel</Button>
          </>
        ) : undefined
      }
    >
      <LoggerPart box={box} logger={logger} />
    </Dialog>
  )
}
