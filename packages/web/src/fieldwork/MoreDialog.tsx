import type { ReactNode } from 'react'
import { AtHand } from '../calculators/AtHand.tsx'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { Section } from '../kit/Section.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { useDraft } from './use-draft.ts'
import { fieldOffers } from './field-offers.ts'
import { PhotoPart } from './PhotoPart.tsx'
import { ScreenPart } from './ScreenPart.tsx'
import { StepsList } from './StepsList.tsx'
import { NotKept, useStop, useWriting } from './stop-tools.tsx'

/** What is wanted now and then at a stop: a photo, a note, a sum, a look at all steps, leaving early. */
export function MoreDialog({
  onClose,
  onLeave,
}: {
  readonly onClose: () => void
  readonly onLeave: () => void
}): ReactNode {
  const { at, plan } = useStop()
  const { id, state } = useInvestigation()
  const writing = useWriting()
  const { say } = useToasts()
  const draft = useDraft(`${id}/${at.round}/${at.stop}/note`)
  const text = draft.get('note')
  const note = async (): Promise<void> => {
    const kept = await writing.write('note.written', {
      text: `${plan.stop.title}, ${at.round}: ${text.trim()}`,
      purpose: 'note',
    })
    if (!kept) return
    draft.clear()
    say('The note is kept.')
  }
  return (
    <Dialog title={plan.stop.title} open onClose={onClose}>
      <div className="stack">
        <Section title="Photo">
          <PhotoPart />
        </Section>
        <Section title="Note">
          <TextArea
            label="Anything else worth keeping about this stop"
            rows={2}
            value={text}
            onChange={(note) => draft.set({ note })}
          />
          <Button busy={writing.busy} disabled={text.trim() === ''} onPress={() => void note()}>
            Keep the note
          </Button>
          <NotKept issues={writing.issues} />
        </Section>
        <AtHand about="fieldwork" offers={fieldOffers(state, { round: at.round, stop: { id: at.stop, plan } })} />
        <Section title="Screen and sound">
          <ScreenPart />
        </Section>
        <Section title="Steps of this stop">
          <StepsList />
        </Section>
        {plan.visit?.finished === undefined && <Button onPress={onLeave}>Finish this stop now</Button>}
      </div>
    </Dialog>
  )
}
