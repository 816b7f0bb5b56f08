import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function FindingsScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Findings" />
      <EmptyState title="Nothing to find yet">
        <p>
          Results appear here on the riser diagram and in tables, with intervals, pairs and the criteria you choose.
          Conclusions are yours to write.
        </p>
      </EmptyState>
    </Page>
  )
}
