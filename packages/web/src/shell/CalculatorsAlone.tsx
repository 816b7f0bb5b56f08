import type { ReactNode } from 'react'
import { CalculatorsScreen } from '../calculators/CalculatorsScreen.tsx'
import { PlainShell } from './PlainShell.tsx'

/** The calculators without an investigation around them. */
export function CalculatorsAlone(): ReactNode {
  return (
    <PlainShell where={<span>Calculators</span>}>
      <CalculatorsScreen />
    </PlainShell>
  )
}
