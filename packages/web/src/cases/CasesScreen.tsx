import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function CasesScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Cases" />
      <EmptyState title="No cases yet">
        <p>
          Record each ill person by a code: onset, classification, and where they stayed or met water in the days
          before. Places shared by several incubation windows then rise to the top.
        </p>
      </EmptyState>
    </Page>
  )
}
