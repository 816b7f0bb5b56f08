import type { Issue } from '@rillmark/casebook/entry/issue.ts'
import { STEP_WORDS, STEPS, type Step } from '@rillmark/casebook/entry/steps.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { useInvestigation } from '../store/investigation.tsx'

const PURPOSES = [
  { id: 'note', label: 'note' },
  { id: 'open question', label: 'open question' },
] as const
const ABOUT = STEPS.map((id) => ({ id, label: STEP_WORDS[id] }))

/** Writes a note, or a question that stays in the brief until it is settled. */
export function NoteDialog({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { propose } = useInvestigation()
  const [text, setText] = useState('')
  const [purpose, setPurpose] = useState<'note' | 'open question'>('note')
  const [about, setAbout] = useState<Step>('brief')
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const save = async (): Promise<void> => {
    const proposed = await propose('note.written', { text, about, purpose })
    if (proposed.ok) onClose()
    else setIssues(proposed.issues)
  }
  return (
    <Dialog
      title="Write a note or question"
      open
      onClose={onClose}
      mustAnswer
      actions={
        <>
          <Button kind="primary" disabled={text.trim() === ''} onPress={() => void save()}>
            Record
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={issues} />
        <RadioRow label="What it is" value={purpose} onChange={setPurpose} choices={PURPOSES} />
        <TextArea
          label="Text"
          value={text}
          onChange={setText}
          required
          rows={4}
          hint="Codes, never names of the ill."
        />
        <Select label="About" value={about} onChange={setAbout} choices={ABOUT} />
      </div>
    </Dialog>
  )
}
