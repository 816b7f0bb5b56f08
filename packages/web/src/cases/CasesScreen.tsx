import { counted } from '@rillmark/casebook/units/counted.ts'
import { likelyExposure } from '@rillmark/casebook/cases/likely-exposure.ts'
import { sharedParts } from '@rillmark/casebook/cases/shared-parts.ts'
import { caseWindows, definitionInUse, INCUBATION_DEFINITIONS } from '@rillmark/casebook/cases/windows.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { DataTable } from '../kit/DataTable.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Section } from '../kit/Section.tsx'
import { Select } from '../kit/Select.tsx'
import { useShow } from '../shell/useShow.ts'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import { CaseDetail } from './CaseDetail.tsx'
import { CaseDialog } from './CaseDialog.tsx'
import './cases.css'
import { LikelyExposure } from './LikelyExposure.tsx'
import { PasteDialog } from './PasteDialog.tsx'
import { SharedPlaces } from './SharedPlaces.tsx'
import { Timeline, TimelineKey } from './Timeline.tsx'
import { timelineOf } from './timeline-model.ts'

const timelineIn = ({ cases }: InvestigationState) => timelineOf(cases)
const likelyIn = ({ cases }: InvestigationState) => likelyExposure(cases)
const windowsIn = ({ cases }: InvestigationState) => caseWindows(cases)

/** Who was ill, when, and where they were while they may have been exposed. */
export function CasesScreen(): ReactNode {
  const { state } = useInvestigation()
  const [open, setOpen] = useState<'case' | 'paste'>()
  const actions = (
    <ButtonRow>
      <Button kind="primary" onPress={() => setOpen('case')}>
        Record a case
      </Button>
      <Button onPress={() => setOpen('paste')}>Paste from a spreadsheet</Button>
    </ButtonRow>
  )
  return (
    <Page wide>
      <PageHead
        title={headline(state)}
        name="Cases"
        lead="Codes only: a person’s name never enters this file."
        actions={state.cases.cases.size > 0 ? actions : undefined}
      />
      {state.cases.cases.size === 0 ? (
        <EmptyState title="No cases yet" action={actions}>
          <p>
            Record each ill person by a code: onset, classification, and where they stayed or met water in the days
            before. Places shared by several incubation windows then rise to the top.
          </p>
        </EmptyState>
      ) : (
        <CasesInHand />
      )}
      {open === 'case' && <CaseDialog onClose={() => setOpen(undefined)} />}
      {open === 'paste' && <PasteDialog onClose={() => setOpen(undefined)} />}
    </Page>
  )
}

function CasesInHand(): ReactNode {
  const timeline = useDerived(timelineIn)
  const places = useDerived(sharedParts)
  const windows = useDerived(windowsIn)
  const likely = useDerived(likelyIn)
  const [picked, setPicked] = useState(useShow())
  const [lit, setLit] = useState<string>()
  const { state } = useInvestigation()
  const selected = picked !== undefined && state.cases.cases.has(picked) ? picked : undefined
  return (
    <>
      <Section title="Stays and onsets">
        <WindowChoice />
        {timeline === undefined ? (
          <p className="quiet">No onset date yet, so no window can be drawn.</p>
        ) : (
          <>
            <Timeline
              timeline={timeline}
              likely={likely}
              selected={selected}
              onSelect={setPicked}
              lit={lit}
              onLight={setLit}
            />
            <TimelineKey isBanded={likely?.fits === 'yes'} />
            {likely !== undefined && <LikelyExposure likely={likely} />}
          </>
        )}
      </Section>
      <Section title="Places they share">
        <SharedPlaces places={places} cases={windows.length} lit={lit} onLight={setLit} />
      </Section>
      <Section title="Cases">
        <DataTable
          caption={`${state.cases.cases.size} recorded`}
          captionHidden
          rows={[...state.cases.cases.values()]}
          rowId={({ body }) => body.code}
          selectedId={selected}
          onSelect={setPicked}
          columns={[
            { id: 'code', head: 'Case', cell: ({ body }) => body.code, sort: ({ body }) => body.code },
            {
              id: 'onset',
              head: 'Onset',
              cell: ({ body }) => body.onsetDate ?? 'not known',
              sort: ({ body }) => body.onsetDate,
            },
            {
              id: 'class',
              head: 'Classification',
              cell: ({ body }) => body.classification,
              sort: ({ body }) => body.classification,
            },
            { id: 'link', head: 'Link', cell: ({ body }) => body.link },
            { id: 'isolate', head: 'Isolate', cell: ({ body }) => body.isolate },
          ]}
        />
      </Section>
      {selected !== undefined && <CaseDetail code={selected} />}
    </>
  )
}

function WindowChoice(): ReactNode {
  const { state, propose } = useInvestigation()
  const choices = INCUBATION_DEFINITIONS.map(({ id, note }) => ({ id, label: `${id} days before onset · ${note}` }))
  return (
    <Select
      label="Incubation window"
      value={definitionInUse(state.cases)}
      onChange={(definition) => void propose('incubation.chosen', { definition })}
      choices={choices}
    />
  )
}

function headline(state: InvestigationState): string {
  const { cases } = state
  const places = sharedParts(state)
  const number = [...cases.cases.values()].filter(({ body }) => body.classification !== 'not a case').length
  const top = places[0]
  if (number === 0) return 'Cases'
  if (top === undefined || top.inWindow < 2) return `${counted(number, 'case')}, no place shared by two windows yet`
  return `${top.place} lies in the window of ${top.inWindow} of ${counted(number, 'case')}`
}
