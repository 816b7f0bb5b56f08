import { STEP_WORDS, STEPS, type Step } from '@rillmark/casebook/entry/steps.ts'
import { type ReactNode, useState } from 'react'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useWriting } from '../store/use-writing.ts'

const PURPOSES = [
  { id: 'note', label: 'note' },
  { id: 'open question', label: 'open question' },
] as const
const ABOUT = STEPS.map((id) => ({ id, label: STEP_WORDS[id] }))

/** Writes a note, or a question that stays in the brief until it is settled. */
export function NoteDialog({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { issues, busy, write } = useWriting()
  const [text, setText] = useState('')
  const [purpose, setPurpose] = useState<'note' | 'open question'>('note')
  const [about, setAbout] = useState<Step>('brief')
  const save = async (): Promise<void> => {
    if (await write('note.written', { text, about, purpose })) onClose()
  }
  return (
    <WritingDialog
      title="Write a note or question"
      act="Record"
      issues={issues}
      busy={busy}
      onWrite={save}
      onClose={onClose}
    >
      <RadioRow label="What it is" value={purpose} onChange={setPurpose} choices={PURPOSES} />
      <TextArea label="Text" value={text} onChange={setText} required rows={4} hint="Codes, never names of the ill." />
      <Select label="About" value={about} onChange={setAbout} choices={ABOUT} />
    </WritingDialog>
  )
}
