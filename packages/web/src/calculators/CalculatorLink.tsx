import { Link, useParams } from '@tanstack/react-router'
import type { ReactNode } from 'react'
import { leaveFigures } from './figures-left.ts'

/** The investigation around these calculators; undefined where they stand alone. */
export function useAround(): string | undefined {
  return useParams({ strict: false }).investigation
}

export interface CalculatorLinkProps {
  readonly id?: string | undefined
  /** opens the calculator with these figures filled in */
  readonly figures?: unknown
  readonly children: ReactNode
}

/** A link to a calculator, or to the list of all, staying inside the investigation if there is one. */
export function CalculatorLink({ id: calculator, figures, children }: CalculatorLinkProps): ReactNode {
  const investigation = useAround()
  const leave = (): void => {
    if (calculator !== undefined && figures !== undefined) leaveFigures(calculator, figures)
  }
  if (investigation === undefined)
    return (
      <Link to="/calculators/{-$calculator}" params={{ calculator }} onClick={leave}>
        {children}
      </Link>
    )
  return (
    <Link to="/i/$investigation/calculators/{-$calculator}" params={{ investigation, calculator }} onClick={leave}>
      {children}
    </Link>
  )
}
