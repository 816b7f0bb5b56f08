import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function RecordScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Record" />
      <EmptyState title="The record is empty">
        <p>
          Every entry will be listed here, with who made it and when. Nothing in it is ever changed or removed;
          amendments stand beside what they amend.
        </p>
      </EmptyState>
    </Page>
  )
}
