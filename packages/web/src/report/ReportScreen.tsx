import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function ReportScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Report" />
      <EmptyState title="There is nothing to report yet">
        <p>
          The report is put together from the record: each number goes back to its entry. Write the summary and the
          limits here.
        </p>
      </EmptyState>
    </Page>
  )
}
