import type { ReactNode } from 'react'
import { Dialog as Box, Heading } from 'react-aria-components/Dialog'
import { Modal, ModalOverlay } from 'react-aria-components/Modal'
import { Button } from './Button.tsx'

export interface DialogProps {
  readonly title: string
  readonly open: boolean
  readonly onClose: () => void
  readonly children: ReactNode
  /** Buttons; without them a single Close is shown. */
  readonly actions?: ReactNode
  readonly size?: 'normal' | 'wide' | undefined
  /** A question that must be answered cannot be dismissed by a press outside. */
  readonly mustAnswer?: boolean | undefined
}

/** A question or a small form over the page; at the foot of the screen on a phone. Focus goes in and comes back by itself. */
export function Dialog(props: DialogProps): ReactNode {
  return (
    <ModalOverlay
      className="veil"
      isOpen={props.open}
      onOpenChange={(open) => {
        if (!open) props.onClose()
      }}
      isDismissable={props.mustAnswer !== true}
      isKeyboardDismissDisabled={props.mustAnswer === true}
    >
      <Modal className={`dialog dialog-${props.size ?? 'normal'}`}>
        <Box className="dialog-box">
          <Heading slot="title" className="dialog-title">
            {props.title}
          </Heading>
          <div className="dialog-body">{props.children}</div>
          <div className="dialog-actions">{props.actions ?? <Button onPress={props.onClose}>Close</Button>}</div>
        </Box>
      </Modal>
    </ModalOverlay>
  )
}
