import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { useParams } from '@tanstack/react-router'
import type { ReactNode } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { CalculatorLink } from './CalculatorLink.tsx'
import { CalculatorList } from './CalculatorList.tsx'
import { CalculatorPage } from './CalculatorPage.tsx'
import './calculators.css'

/** All calculators, or the one the address names. */
export function CalculatorsScreen(): ReactNode {
  const { calculator } = useParams({ strict: false })
  if (calculator === undefined) return <CalculatorList />
  const calculation = findCalculation(calculator)
  return calculation === undefined ? (
    <NoSuch id={calculator} />
  ) : (
    <CalculatorPage key={calculation.id} calculation={calculation} />
  )
}

function NoSuch({ id }: { readonly id: string }): ReactNode {
  return (
    <Page>
      <PageHead title="No such calculator" />
      <EmptyState
        title={`Nothing here is called “${id}”`}
        action={<CalculatorLink>See all calculators</CalculatorLink>}
      >
        <p>The address may be mistyped, or come from a newer version.</p>
      </EmptyState>
    </Page>
  )
}
