import { given } from '@rillmark/casebook/entry/given.ts'
import type { Step } from '@rillmark/casebook/entry/steps.ts'
import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { type Problem, ProblemList } from '../kit/ProblemList.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { Worked } from './working.ts'

export interface RecordThisProps {
  readonly calculation: Calculation
  readonly worked: Worked
  readonly working: string
  /** the step it was worked in */
  readonly about?: Step | undefined
}

/** Puts the calculation into the record: what was put in, what came out, and the working in words. */
export function RecordThis({ calculation, worked, working, about }: RecordThisProps): ReactNode {
  const { propose } = useInvestigation()
  const { say } = useToasts()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const record = async (): Promise<void> => {
    const { input, result } = worked
    const proposed = await propose('calculation.recorded', {
      id: calculation.id,
      version: calculation.version,
      input,
      result,
      working,
      ...given({ about }),
    })
    setProblems(proposed.ok ? [] : proposed.issues)
    if (proposed.ok) say('The calculation is in the record, with its working.')
  }
  return (
    <>
      <Button kind={about === undefined ? 'primary' : 'quiet'} onPress={() => void record()}>
        Record this
      </Button>
      <ProblemList problems={problems} />
    </>
  )
}
