import { componentName } from '@rillmark/casebook/building/labels.ts'
import type { Removal } from '@rillmark/casebook/building/remove-part.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { Note } from '../kit/Note.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useEdit } from './use-edit.ts'
import { circuitWord } from './words.ts'

const NAMED_MOST = 8

export interface ConfirmRemovalProps {
  readonly title: string
  readonly words: string
  readonly removal: Removal
  readonly onClose: () => void
  readonly onRemoved: () => void
  readonly children?: ReactNode
}

/** Says what goes and what loses its water, and asks why. */
export function ConfirmRemoval(props: ConfirmRemovalProps): ReactNode {
  const { removal, onClose, onRemoved } = props
  const edit = useEdit()
  const [why, setWhy] = useState('')
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const remove = async (): Promise<void> => {
    const refused = await edit({ changes: removal.changes, why, said: `Taken out: ${props.words}.` })
    setIssues(refused)
    if (refused.length > 0) return
    onClose()
    onRemoved()
  }
  return (
    <Dialog
      title={props.title}
      open
      onClose={onClose}
      actions={
        <>
          <Button kind="danger" onPress={() => void remove()}>
            Take out
          </Button>
          <Button onPress={onClose}>Keep it</Button>
        </>
      }
    >
      <div className="form">
        <p>
          {removal.pipes.length === 0 ? 'Only it goes' : `${counted(removal.pipes.length, 'pipe')} to it go with it`}.
          The record keeps what was described before.
        </p>
        {props.children}
        <CutOff cutOff={removal.cutOff} />
        <ProblemList problems={issues} title="It has to stay for now" />
        <TextField label="Why" value={why} onChange={setWhy} width="full" focusFirst />
      </div>
    </Dialog>
  )
}

function CutOff({ cutOff }: Pick<Removal, 'cutOff'>): ReactNode {
  if (cutOff.length === 0) return <p className="quiet">Nothing else loses its water by it.</p>
  const named = cutOff
    .slice(0, NAMED_MOST)
    .map(({ component, circuits }) => `${componentName(component)} (${circuits.map(circuitWord).join(', ')})`)
  const more = cutOff.length - named.length
  return (
    <Note kind="warn">
      {counted(cutOff.length, 'part')} would be cut off: {named.join(', ')}
      {more > 0 ? ` and ${more} more` : ''}. They stay on the drawing, to be joined elsewhere.
    </Note>
  )
}
