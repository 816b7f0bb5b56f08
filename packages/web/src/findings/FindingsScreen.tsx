import { componentName } from '@rillmark/casebook/building/labels.ts'
import { chosenCriteria } from '@rillmark/casebook/findings/chosen-criteria.ts'
import { type Focus, focusRows, placesOf } from '@rillmark/casebook/findings/focus-rows.ts'
import { headline } from '@rillmark/casebook/findings/headline.ts'
import { sampleRows } from '@rillmark/casebook/findings/sample-rows.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { AtHand } from '../calculators/AtHand.tsx'
import { Button } from '../kit/Button.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Section } from '../kit/Section.tsx'
import { Split } from '../kit/Split.tsx'
import { useShow } from '../shell/useShow.ts'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import { Conclusions } from './Conclusions.tsx'
import { CriteriaPart } from './CriteriaPart.tsx'
import { FactList } from './FactList.tsx'
import { findingsOffers } from './findings-offers.ts'
import { FindingsDrawing } from './FindingsDrawing.tsx'
import { IsolatesPart } from './IsolatesPart.tsx'
import { PairsPart } from './PairsPart.tsx'
import { PositivityPart } from './PositivityPart.tsx'
import { SamplesTable } from './SamplesTable.tsx'
import './findings.css'

const rowsIn = (state: InvestigationState) => {
  const criteria = chosenCriteria(state)
  return sampleRows(state, criteria.kind === 'chosen' ? criteria.set : undefined)
}

/** Where it was found and where not: the building on the left, what the counts say on the right, one lighting up the other. */
export function FindingsScreen(): ReactNode {
  const rows = useDerived(rowsIn)
  const { state } = useInvestigation()
  const told = useMemo(() => headline(rows), [rows])
  const show = useShow()
  const [focus, setFocus] = useState<Focus | undefined>(() => shown(state, show))
  const [hovered, setHovered] = useState<string>()
  const inFocus = useMemo(() => focusRows(rows, focus), [rows, focus])
  const lit = useMemo(() => {
    const row = rows.find(({ label }) => label === hovered)
    return placesOf(row === undefined ? (focus?.kind === 'samples' ? inFocus : []) : [row])
  }, [rows, hovered, focus, inFocus])
  if (rows.length === 0) return <NothingYet title={told.title} />
  const { system } = state.building
  const aside = (
    <>
      <PageHead title={told.title} name="Findings" lead={told.lead} />
      <FactList facts={told.facts} focus={focus} onFocus={setFocus} />
      <PositivityPart rows={rows} focus={focus} onFocus={setFocus} />
      <Section
        title={focus === undefined ? 'Every sample' : focus.words}
        aside={
          focus !== undefined && (
            <Button kind="text" onPress={() => setFocus(undefined)}>
              Show every sample
            </Button>
          )
        }
      >
        <SamplesTable
          rows={inFocus}
          onHover={setHovered}
          onPlace={(component) => setFocus(placeFocus(state, component))}
        />
      </Section>
      <PairsPart rows={rows} onFocus={setFocus} />
      <CriteriaPart rows={rows} onFocus={setFocus} />
      <IsolatesPart onFocus={setFocus} />
      <AtHand about="findings" offers={findingsOffers(state, rows)} />
      <Conclusions rows={rows} facts={told.facts} focus={focus} onFocus={setFocus} />
    </>
  )
  if (system === undefined) return <Page wide>{aside}</Page>
  return (
    <Split aside={aside} asideLabel="What the results show">
      <FindingsDrawing
        system={system}
        rows={rows}
        selected={focus?.kind === 'place' ? focus.component : undefined}
        lit={lit}
        onSelect={(component) => setFocus(placeFocus(state, component))}
      />
    </Split>
  )
}

function NothingYet({ title }: { readonly title: string }): ReactNode {
  return (
    <Page>
      <PageHead title="Findings" />
      <EmptyState title={title}>
        <p>
          Results appear here on the riser diagram and in tables, with intervals, pairs and the criteria you choose.
          Conclusions are yours to write.
        </p>
      </EmptyState>
    </Page>
  )
}

function shown(state: InvestigationState, show: string | undefined): Focus | undefined {
  if (show === undefined) return undefined
  if (state.building.working.component(show) !== undefined) return placeFocus(state, show)
  return state.results.resultsByLabel.has(show) || state.fieldwork.samples.has(show)
    ? { kind: 'samples', words: `Sample ${show}`, labels: [show] }
    : undefined
}

function placeFocus(state: InvestigationState, component: string): Focus {
  const found = state.building.working.component(component)
  return { kind: 'place', component, words: found === undefined ? component : componentName(found) }
}
