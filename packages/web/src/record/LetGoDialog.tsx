import { type Issue, issueLine } from '@rillmark/science/catalogue/issue.ts'
import { KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { entryWords } from '@rillmark/casebook/record/entry-words.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { Refused } from './RefusedPart.tsx'

/** Lets a refused entry go. What it said, why it was refused and why it was let go stay in the record as a note. */
export function LetGoDialog(props: {
  readonly refused: Refused
  readonly onClose: () => void
  readonly onLetGo: () => void
}): ReactNode {
  const { propose } = useInvestigation()
  const [reason, setReason] = useState('')
  const [problems, setProblems] = useState<readonly Issue[]>([])
  const { entry, issues } = props.refused
  const letGo = async (): Promise<void> => {
    const said = `${KINDS[entry.kind].title}: ${entryWords(entry)}`
    const why = issues.map(issueLine).join('; ')
    const text = `An entry of ${entry.author} was refused and let go. It said: ${said}. Refused because: ${why}. Let go because: ${reason}`
    const written = await propose('note.written', {
      text: text.slice(0, 4000),
      about: KINDS[entry.kind].step,
      purpose: 'note',
    })
    if (!written.ok) return setProblems(written.issues)
    props.onLetGo()
    props.onClose()
  }
  return (
    <Dialog
      title="Let this entry go?"
      open
      onClose={props.onClose}
      actions={
        <>
          <Button kind="danger" disabled={reason.trim() === ''} onPress={() => void letGo()}>
            Let it go
          </Button>
          <Button onPress={props.onClose}>Keep it</Button>
        </>
      }
    >
      <div className="form">
        <p>A note in the record will say what it said, why it was refused, and your reason.</p>
        <ProblemList problems={problems} />
        <TextField label="Reason" value={reason} onChange={setReason} required width="full" focusFirst />
      </div>
    </Dialog>
  )
}
