import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function CalculatorsScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Calculators" />
      <EmptyState title="Choose a calculation">
        <p>Each calculation shows its inputs with units, its equation, its sources and a worked example.</p>
      </EmptyState>
    </Page>
  )
}
