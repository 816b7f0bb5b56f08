import type { Component, KnownBy, Pipe, Supply, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { changedFacts, nowKnown } from '@rillmark/casebook/building/changed-system.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { FactInput } from './FactInput.tsx'
import { KnownChoice } from './KnownTag.tsx'
import { draftOf, type FactField, type FactsDraft } from './facts.ts'

export interface FactsFormProps<T> {
  readonly system: WaterSystem
  readonly thing: T
  readonly fields: (draft: FactsDraft) => readonly FactField[]
  readonly read: (draft: FactsDraft, before: T) => { ok: true; value: T } | { ok: false; issues: readonly Issue[] }
  /** Records the changed thing; gives what speaks against it. */
  readonly onRecord: (next: T, why: string) => Promise<readonly Issue[]>
  readonly onClose: () => void
}

/** All facts of a thing as fields. What is changed is known anew, and the form asks how. */
export function FactsForm<T extends Component | Pipe | Supply>(props: FactsFormProps<T>): ReactNode {
  const { thing, fields, read, onRecord, onClose } = props
  const [draft, setDraft] = useState(() => draftOf(thing))
  const [known, setKnown] = useState<KnownBy | ''>('')
  const [why, setWhy] = useState('')
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const shown = fields(draft)
  const labels = new Map(shown.map(({ name, label }) => [name, label]))
  const said = read(draft, thing)
  const facts = said.ok ? changedFacts(thing, said.value).filter((fact) => fact !== 'notes') : []

  const record = async (): Promise<void> => {
    if (!said.ok) return setIssues(said.issues)
    if (changedFacts(thing, said.value).length === 0) return onClose()
    if (facts.length > 0 && known === '')
      return setIssues([issue('how you know it', { expected: 'seen, told, drawn or guessed', received: undefined })])
    const next = known === '' ? said.value : nowKnown(said.value, { facts, known })
    const refused = await onRecord(next, why)
    if (refused.length === 0) onClose()
    else setIssues(refused)
  }
  const issueAt = (name: string): string | undefined => {
    const found = issues.find(({ path }) => path === name || path.endsWith(`.${name}`))
    return found === undefined ? undefined : `Expected ${found.expected}.`
  }

  return (
    <div className="form facts-form">
      <div className="facts-grid">
        {shown.map((field) => (
          <FactInput
            key={field.name}
            field={field}
            value={draft[field.name] ?? ''}
            onChange={(value) => setDraft({ ...draft, [field.name]: value })}
            issue={issueAt(field.name)}
            system={props.system}
          />
        ))}
      </div>
      <KnownChoice
        label="How do you know what you change?"
        value={known}
        onChange={setKnown}
        issue={issueAt('how you know it')}
      />
      <TextField label="Why, or who said it" value={why} onChange={setWhy} width="full" />
      <ProblemList
        problems={issues
          .filter(({ path }) => path !== 'how you know it')
          .map((one) => ({ ...one, path: labels.get(one.path.split('.').at(-1) ?? '') ?? one.path }))}
      />
      <ButtonRow>
        <Button kind="primary" onPress={() => void record()}>
          Record the change
        </Button>
        <Button onPress={onClose}>Cancel</Button>
      </ButtonRow>
    </div>
  )
}
