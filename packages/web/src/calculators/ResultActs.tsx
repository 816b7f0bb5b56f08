import type { Step } from '@rillmark/casebook/entry/steps.ts'
import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { useAround } from './CalculatorLink.tsx'
import { RecordThis } from './RecordThis.tsx'
import { workingText, type Worked } from './working.ts'

export interface ResultActsProps {
  readonly calculation: Calculation
  readonly worked: Worked
  /** the step it was worked in */
  readonly about?: Step | undefined
}

/** What can be done with a worked calculation: put it into the record, copy it. */
export function ResultActs({ calculation, worked, about }: ResultActsProps): ReactNode {
  const { units } = usePreferences()
  const { say } = useToasts()
  const [byHand, setByHand] = useState(false)
  const around = useAround()
  const text = workingText(calculation, { worked, units })
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(text)
      say('Result, working and sources were copied as text.')
    } catch {
      setByHand(true)
    }
  }
  return (
    <>
      <ButtonRow>
        {around !== undefined && <RecordThis calculation={calculation} worked={worked} working={text} about={about} />}
        <Button onPress={() => void copy()}>Copy as text</Button>
      </ButtonRow>
      {byHand && (
        <TextArea
          label="The browser does not let this page copy: select all of this and copy it"
          value={text}
          onChange={() => undefined}
          rows={10}
          mono
        />
      )}
    </>
  )
}
