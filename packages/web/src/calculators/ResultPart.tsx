import type { ReactNode } from 'react'
import { Section } from '../kit/Section.tsx'
import { ResultActs } from './ResultActs.tsx'
import { ResultBody, type ResultBodyProps } from './ResultBody.tsx'

/** What came out, with its cautions beside it, and what can be done with it; or what is still needed. */
export function ResultPart(props: ResultBodyProps): ReactNode {
  const { calculation, run } = props
  return (
    <Section title="Result">
      <ResultBody {...props} />
      {run.kind === 'worked' && <ResultActs calculation={calculation} worked={run.worked} />}
    </Section>
  )
}
