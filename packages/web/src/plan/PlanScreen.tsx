import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function PlanScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Plan" />
      <EmptyState title="There is no plan yet">
        <p>
          A plan grows out of the building and the cases. Describe the building first; obligatory points then appear
          here, each with its reason.
        </p>
      </EmptyState>
    </Page>
  )
}
