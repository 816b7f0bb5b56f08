import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function FollowUpScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Follow-up" />
      <EmptyState title="No follow-up yet">
        <p>
          Once remediation is completed, the rounds of samples that must stay negative are set out here by the rule of
          the criteria set.
        </p>
      </EmptyState>
    </Page>
  )
}
