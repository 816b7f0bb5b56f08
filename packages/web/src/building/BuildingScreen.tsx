import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'

export function BuildingScreen(): ReactNode {
  return (
    <Page>
      <PageHead title="Building" />
      <EmptyState title="The building is not described yet">
        <p>
          Start with a two-minute description: floors, risers, outlets on a floor, heater, recirculation, disinfectant.
          The riser diagram draws itself from it.
        </p>
      </EmptyState>
    </Page>
  )
}
