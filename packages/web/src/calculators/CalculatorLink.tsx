import { Link, useParams } from '@tanstack/react-router'
import type { ReactNode } from 'react'

/** The investigation around these calculators; undefined where they stand alone. */
export function useAround(): string | undefined {
  return useParams({ strict: false }).investigation
}

/** A link to a calculator, or to the list of all, staying inside the investigation if there is one. */
export function CalculatorLink(props: { readonly id?: string | undefined; readonly children: ReactNode }): ReactNode {
  const investigation = useAround()
  const calculator = props.id
  if (investigation === undefined)
    return (
      <Link to="/calculators/{-$calculator}" params={{ calculator }}>
        {props.children}
      </Link>
    )
  return (
    <Link to="/i/$investigation/calculators/{-$calculator}" params={{ investigation, calculator }}>
      {props.children}
    </Link>
  )
}
