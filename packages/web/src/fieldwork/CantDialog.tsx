import type { GuidedStep } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { type Consequence, consequenceOf, type DeviationReason, reasonsFor } from './cant-do.ts'
import { useDraft } from './use-draft.ts'
import { NotKept, stepNames, useStop } from './stop-tools.tsx'

const MEANS: Readonly<Record<Consequence, string>> = {
  noted: 'noted, the step goes on',
  'step left out': 'leaves this step out',
  'sample left out': 'leaves this sample out',
}

/** A label beside "left out" gives the whole sample up, so a step left out alone goes without. */
function namesFor(step: GuidedStep, means: Consequence) {
  const names = stepNames(step)
  if (means === 'noted') return names
  if (means === 'sample left out') return { ...names, leftOut: true }
  return { procedure: names.procedure, step: names.step, leftOut: true }
}

/** The second of two taps: why it can't be done. Written at once, with a way back. */
export function CantDialog({ step, onClose }: { readonly step: GuidedStep; readonly onClose: () => void }): ReactNode {
  const { at } = useStop()
  const { id: investigation, propose } = useInvestigation()
  const { say } = useToasts()
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const draft = useDraft(`${investigation}/${at.round}/${at.stop}/cant`)
  const text = draft.get(step.key)
  const record = async (reason: DeviationReason): Promise<void> => {
    const means = consequenceOf(step, reason)
    const proposed = await propose('deviation.recorded', {
      ...at,
      ...namesFor(step, means),
      reason,
      ...(text.trim() === '' ? {} : { text: text.trim() }),
    })
    if (!proposed.ok) return setIssues(proposed.issues)
    draft.set({ [step.key]: '' })
    const { id } = proposed.entry
    const undo = (): void =>
      void propose('entry.withdrawn', {}, { corrects: { entry: id, reason: 'taken back at once' } })
    say(`“${step.title}”: ${reason}. Recorded.`, { undo })
    onClose()
  }
  return (
    <Dialog
      title={`${step.title}: why not?`}
      open
      onClose={onClose}
      actions={<Button onPress={onClose}>Back to the step</Button>}
    >
      <div className="stack">
        <ul className="field-reasons">
          {reasonsFor(step).map((reason) => (
            <li key={reason}>
              <button type="button" className="field-reason" onClick={() => void record(reason)}>
                <span>{reason}</span>
                <span className="faint">{MEANS[consequenceOf(step, reason)]}</span>
              </button>
            </li>
          ))}
        </ul>
        <TextField
          label="In words, if it needs more (type before you choose)"
          width="full"
          value={text}
          onChange={(typed) => draft.set({ [step.key]: typed })}
        />
        <NotKept issues={issues} />
      </div>
    </Dialog>
  )
}
