import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { ReactNode } from 'react'
import { useHold } from '../offline/use-hold.ts'
import { Button } from './Button.tsx'
import { Dialog } from './Dialog.tsx'
import { ProblemList } from './ProblemList.tsx'

/** A small form that writes one entry: what is wrong, the fields, the act and a way out. A newer version waits while it is open: not all of it is typed. */
export function WritingDialog(props: {
  readonly title: string
  readonly act: string
  readonly issues: readonly Issue[]
  readonly busy: boolean
  readonly onWrite: () => Promise<void>
  readonly onClose: () => void
  readonly children: ReactNode
  readonly size?: 'normal' | 'wide'
}): ReactNode {
  useHold('a form is open')
  return (
    <Dialog
      title={props.title}
      open
      onClose={props.onClose}
      mustAnswer
      size={props.size}
      actions={
        <>
          <Button kind="primary" busy={props.busy} onPress={() => void props.onWrite()}>
            {props.act}
          </Button>
          <Button onPress={props.onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={props.issues} />
        {props.children}
      </div>
    </Dialog>
  )
}
