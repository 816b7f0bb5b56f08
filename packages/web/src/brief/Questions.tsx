import { localDate } from '@rillmark/casebook/units/local-time.ts'
import { STEP_WORDS } from '@rillmark/casebook/entry/steps.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Section } from '../kit/Section.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useDerived, useInvestigation } from '../store/investigation.tsx'

const notesIn = ({ brief }: InvestigationState) =>
  brief.notes.map((note) => ({ note, answer: brief.settled.get(note.id)?.body.answer })).toReversed()

/** Notes and questions as people wrote them; a question can be settled here. */
export function Questions(): ReactNode {
  const notes = useDerived(notesIn)
  const [answering, setAnswering] = useState<string>()
  if (notes.length === 0) return null
  return (
    <Section title="Notes and questions">
      <ul className="brief-notes">
        {notes.map(({ note, answer }) => (
          <li key={note.id}>
            <p>
              {note.body.purpose === 'open question' && (
                <b>{answer === undefined ? 'Open question: ' : 'Question: '}</b>
              )}
              {note.body.text}
            </p>
            {answer !== undefined && <p className="quiet">Settled: {answer}</p>}
            <p className="faint">
              {note.author} · {localDate(note)}
              {note.body.about === undefined ? '' : ` · ${STEP_WORDS[note.body.about]}`}
              {note.body.purpose === 'open question' && answer === undefined && answering !== note.id && (
                <Button kind="text" onPress={() => setAnswering(note.id)}>
                  Settle it
                </Button>
              )}
            </p>
            {answering === note.id && <Answer question={note.id} onClose={() => setAnswering(undefined)} />}
          </li>
        ))}
      </ul>
    </Section>
  )
}

function Answer({ question, onClose }: { readonly question: string; readonly onClose: () => void }): ReactNode {
  const { propose } = useInvestigation()
  const { say } = useToasts()
  const [answer, setAnswer] = useState('')
  const settle = async (): Promise<void> => {
    const proposed = await propose('question.settled', { question, answer })
    if (proposed.ok) onClose()
    else say(proposed.issues.map(({ expected }) => `Expected ${expected}.`).join(' '))
  }
  return (
    <div className="form">
      <TextField
        label="Answer"
        value={answer}
        onChange={setAnswer}
        width="full"
        focusFirst
        onEnter={() => void settle()}
      />
      <ButtonRow>
        <Button kind="primary" disabled={answer.trim() === ''} onPress={() => void settle()}>
          Record the answer
        </Button>
        <Button onPress={onClose}>Cancel</Button>
      </ButtonRow>
    </div>
  )
}
