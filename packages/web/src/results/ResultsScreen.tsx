import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function ResultsScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Results" />
      <EmptyState title="No results yet">
        <p>
          When the laboratory reports, drop its file here. What matches, what does not and what looks wrong is shown
          before anything is accepted.
        </p>
      </EmptyState>
    </Page>
  )
}
