import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function CustodyScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Custody" />
      <EmptyState title="Nothing is packed yet">
        <p>
          Samples collected in Fieldwork are packed here into consignments, sealed, handed over and followed to the
          laboratory.
        </p>
      </EmptyState>
    </Page>
  )
}
