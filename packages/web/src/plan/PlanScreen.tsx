import { Link } from '@tanstack/react-router'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { nextRound } from '@rillmark/casebook/plan/plan-input-from-state.ts'
import { type ReactNode, useState } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Tabs } from '../kit/Tabs.tsx'
import { useShow } from '../shell/useShow.ts'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import { AdoptedRound } from './AdoptedRound.tsx'
import { DraftPlan } from './DraftPlan.tsx'
import './plan.css'

const roundsIn = ({ plan }: InvestigationState) => [...plan.rounds.keys()]

/** Where to sample, why, in what order, and what that can miss; then labels and papers. */
export function PlanScreen(): ReactNode {
  const { id, state } = useInvestigation()
  const rounds = useDerived(roundsIn)
  const show = useShow()
  const draft = `${nextRound(state)} draft`
  const [picked, setPicked] = useState<string | undefined>(show)
  const { system } = state.building
  if (system === undefined) return <NoBuilding investigation={id} />
  const selected =
    picked !== undefined && (rounds.includes(picked) || picked === draft) ? picked : (rounds.at(-1) ?? draft)
  const adopted = state.plan.rounds.get(selected)
  const panel =
    adopted === undefined ? (
      <DraftPlan system={system} onAdopted={setPicked} />
    ) : (
      <AdoptedRound key={selected} adopted={adopted} system={system} />
    )
  if (rounds.length === 0) return <Page wide>{panel}</Page>
  const tabs = [
    ...rounds.map((round) => ({ id: round, label: `${round} adopted` })),
    { id: draft, label: `Plan ${nextRound(state)}` },
  ]
  return (
    <Page wide>
      <Tabs label="Round" tabs={tabs} selected={selected} onSelect={setPicked}>
        <div className="plan-panel">{panel}</div>
      </Tabs>
    </Page>
  )
}

function NoBuilding({ investigation }: { readonly investigation: string }): ReactNode {
  return (
    <Page>
      <PageHead title="Plan" />
      <EmptyState
        title="There is no plan yet"
        action={
          <Link
            to="/i/$investigation/building"
            params={{ investigation }}
            className="button button-primary button-normal"
          >
            Describe the building
          </Link>
        }
      >
        <p>
          A plan grows out of the building and the cases. Describe the building first, two minutes are enough; the
          obligatory points then stand here, each with its reason, and what a short budget would miss.
        </p>
      </EmptyState>
    </Page>
  )
}
