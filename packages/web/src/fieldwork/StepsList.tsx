import type { GuidedStep } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import { taskKind } from '@rillmark/casebook/fieldwork/guided-steps.ts'
import type { ReactNode } from 'react'
import type { MarkShape } from '../kit/Mark.tsx'
import { Tag } from '../kit/Tag.tsx'
import { useStop } from './stop-tools.tsx'

const SHAPES: Readonly<Record<GuidedStep['state'], MarkShape>> = {
  done: 'check',
  'left out': 'cross',
  current: 'full',
  ahead: 'open',
}
const WORDS: Readonly<Record<GuidedStep['state'], string>> = {
  done: 'done',
  'left out': 'left out',
  current: 'now',
  ahead: 'ahead',
}

/** All steps of the stop with where each stands. */
export function StepsList(): ReactNode {
  const { plan } = useStop()
  return (
    <ol className="field-steps">
      {plan.steps.map((step) => (
        <li key={step.key} aria-current={step.state === 'current' ? 'step' : undefined}>
          <span>
            {step.title} <span className="faint">{taskKind(step)}</span>
          </span>
          <Tag
            shape={SHAPES[step.state]}
            kind={
              step.state === 'done' || step.state === 'current'
                ? 'accent'
                : step.state === 'left out'
                  ? 'warn'
                  : 'faint'
            }
          >
            {WORDS[step.state]}
          </Tag>
        </li>
      ))}
    </ol>
  )
}
