import { latestPrediction } from '@rillmark/casebook/conditions/latest-prediction.ts'
import { predictionOf } from '@rillmark/casebook/conditions/prediction-of.ts'
import { systemEntryOf } from '@rillmark/casebook/conditions/system-entry.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { type Problem, ProblemList } from '../kit/ProblemList.tsx'
import { Section } from '../kit/Section.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import type { ShownPrediction } from './use-prediction.ts'

/** Puts the prediction into the record, where the plan and the report find it. */
export function RecordPrediction({ shown }: { readonly shown: ShownPrediction }): ReactNode {
  const { state, propose } = useInvestigation()
  const recorded = useDerived(latestPrediction)
  const { say } = useToasts()
  const [typed, setTyped] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const kept = recorded !== undefined && !recorded.stale
  const record = async (): Promise<void> => {
    const { system, conditions, series, fitted } = shown
    const systemEntry = systemEntryOf(state.record) ?? ''
    const text = typed.trim()
    const note = text === '' ? undefined : text
    const body = predictionOf({ system, systemEntry, conditions, series, fit: fitted?.entry, note })
    const proposed = await propose('prediction.recorded', body)
    setProblems(proposed.ok ? [] : proposed.issues)
    if (!proposed.ok) return
    setTyped('')
    say('The prediction is in the record, with what it rests on.')
  }
  if (shown.from === 'record' || shown.stale) return null
  return (
    <Section title="Keep it">
      <p className="quiet">
        {kept
          ? 'A prediction of the building as described now is in the record; the plan and the report can cite it.'
          : 'In the record the plan can cite it as a reason, and the report prints it with what was assumed.'}
      </p>
      <TextField
        label="Note"
        hint="Why it was made, what to make of it. May stay empty."
        value={typed}
        onChange={setTyped}
      />
      <ButtonRow>
        <Button onPress={() => void record()}>
          {kept ? 'Put this one into the record too' : 'Put this prediction into the record'}
        </Button>
      </ButtonRow>
      <ProblemList problems={problems} />
    </Section>
  )
}
