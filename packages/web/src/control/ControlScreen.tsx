import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function ControlScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Control" />
      <EmptyState title="No measures yet">
        <p>
          Record what must be done, where, by whom and when: first what protects people now, then what removes the
          cause.
        </p>
      </EmptyState>
    </Page>
  )
}
