import type { GuidedStep } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import type { ReactNode } from 'react'
import { TextArea } from '../kit/TextArea.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { DraftHandle } from './drafts.ts'
import { noteOffered } from './note-offered.ts'
import { StepFrame } from './StepFrame.tsx'
import { stepNames, useStop, useWriting } from './stop-tools.tsx'

const ACT_WORDS: Readonly<Record<string, string>> = {
  caution: 'Understood',
  note: 'Noted',
  prepare: 'Done',
  collect: 'Collected',
}

/** A step that is only done: a caution, a question, a preparation, a collecting. */
export function PlainStep({ step, draft }: { readonly step: GuidedStep; readonly draft: DraftHandle }): ReactNode {
  const { at, plan } = useStop()
  const { state, device } = useInvestigation()
  const writing = useWriting()
  const field = `${step.key} notes`
  const offered = noteOffered(state, { step, plan, round: at.round, device })
  const typed = draft.get(field) || (draft.get(`${field} typed`) === '' ? offered : '')
  const notes = typed.trim()
  const done = async (): Promise<void> => {
    const kept = await writing.write('step.done', { ...at, ...stepNames(step), ...(notes === '' ? {} : { notes }) })
    if (kept) draft.set({ [field]: '', [`${field} typed`]: '' })
  }
  const asks = step.step.kind === 'note'
  return (
    <StepFrame
      step={step}
      writing={writing}
      act={{
        label: asks && notes === '' ? 'Nothing to note' : (ACT_WORDS[step.step.kind] ?? 'Done'),
        onPress: () => void done(),
        disabled: step.refused !== undefined,
      }}
    >
      {asks && (
        <TextArea
          label="What you were told or saw"
          rows={3}
          width="full"
          value={typed}
          onChange={(text) => draft.set({ [field]: text, [`${field} typed`]: 'yes' })}
        />
      )}
    </StepFrame>
  )
}
