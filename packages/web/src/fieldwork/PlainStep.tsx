import type { GuidedStep } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import type { ReactNode } from 'react'
import { TextArea } from '../kit/TextArea.tsx'
import type { DraftHandle } from './drafts.ts'
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
  const { at } = useStop()
  const writing = useWriting()
  const field = `${step.key} notes`
  const notes = draft.get(field).trim()
  const done = async (): Promise<void> => {
    const kept = await writing.write('step.done', { ...at, ...stepNames(step), ...(notes === '' ? {} : { notes }) })
    if (kept) draft.set({ [field]: '' })
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
          value={draft.get(field)}
          onChange={(text) => draft.set({ [field]: text })}
        />
      )}
    </StepFrame>
  )
}
