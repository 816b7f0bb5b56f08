import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function BriefScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Brief" />
      <EmptyState title="Nothing is known yet">
        <p>
          Write who called, what happened and what is asked. What is known, what is missing, what is next and what is
          late then gather here by themselves.
        </p>
      </EmptyState>
    </Page>
  )
}
