import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function FieldworkScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Fieldwork" />
      <EmptyState title="There are no stops yet">
        <p>
          Adopt a plan first. Its stops then come one at a time, step by step, in the order that keeps the samples
          sound.
        </p>
      </EmptyState>
    </Page>
  )
}
