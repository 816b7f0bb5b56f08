import { counted } from '@rillmark/casebook/units/counted.ts'
import { waitingSamples } from '@rillmark/casebook/results/waiting.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type ReactNode, useState } from 'react'
import { AtHand } from '../calculators/AtHand.tsx'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { FileDrop } from '../kit/FileDrop.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Progress } from '../kit/Progress.tsx'
import { Section } from '../kit/Section.tsx'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import { ImportReview } from './ImportReview.tsx'
import { ImportsTable } from './ImportsTable.tsx'
import { IsolateDialog } from './IsolateDialog.tsx'
import { IsolatesTable } from './IsolatesTable.tsx'
import { ResultDialog } from './ResultDialog.tsx'
import { resultsOffers } from './results-offers.ts'
import { ResultsTable } from './ResultsTable.tsx'
import { useImport } from './use-import.ts'
import { WaitingTable } from './WaitingTable.tsx'
import { localDay } from '../store/local-time.ts'
import './results.css'

/** What the laboratory reports: a file dropped and looked through before it counts, single results by hand, isolates, what is still out. */
export function ResultsScreen(): ReactNode {
  const { state } = useInvestigation()
  const imported = useImport()
  const [open, setOpen] = useState<'result' | 'isolate'>()
  const actions = (
    <ButtonRow>
      <Button onPress={() => setOpen('result')}>Type a result</Button>
      <Button onPress={() => setOpen('isolate')}>Record an isolate</Button>
    </ButtonRow>
  )
  const { file, busy } = imported
  return (
    <Page wide>
      {file === undefined ? (
        <PageHead title={titleOf(state)} name="Results" actions={actions} />
      ) : (
        <PageHead title="Look the file through" name="Results" lead="Nothing is in the record until you accept it." />
      )}
      {busy !== undefined && <Progress label={busy.words} fraction={busy.fraction} onCancel={busy.stop} />}
      {busy === undefined && file === undefined && <Overview imported={imported} />}
      {busy === undefined && file !== undefined && <ImportReview imported={imported} file={file} />}
      {open === 'result' && <ResultDialog onClose={() => setOpen(undefined)} />}
      {open === 'isolate' && <IsolateDialog onClose={() => setOpen(undefined)} />}
    </Page>
  )
}

function Overview({ imported }: { readonly imported: ReturnType<typeof useImport> }): ReactNode {
  const { state } = useInvestigation()
  const offers = useDerived(resultsOffers)
  const waiting = waitingSamples(state, localDay())
  const drop = (
    <div className="stack">
      <FileDrop
        label="the laboratory’s file"
        hint="CSV or XLSX, at most 20 MB. It is read in this window only."
        accept={['.csv', '.txt', '.tsv', '.xlsx']}
        onFiles={([first]) => first !== undefined && imported.open(first)}
      />
      <ProblemList problems={imported.issues} title="The file was not taken" />
    </div>
  )
  if (state.results.results.length === 0 && waiting.length === 0)
    return (
      <>
        <EmptyState title="No samples are out and no results are in">
          <p>
            When the laboratory reports, drop its file here. Results of samples that others took before, such as the
            facility’s own, can come in the same way.
          </p>
        </EmptyState>
        {drop}
        <AtHand about="results" offers={offers} />
      </>
    )
  return (
    <>
      {drop}
      {waiting.length > 0 && (
        <div data-still="blank">
          <Section title="Still out" aside={counted(waiting.length, 'sample')}>
            <WaitingTable waiting={waiting} />
          </Section>
        </div>
      )}
      {state.results.results.length > 0 && (
        <Section title="Results">
          <ResultsTable />
        </Section>
      )}
      {state.results.isolates.size > 0 && (
        <Section title="Isolates">
          <IsolatesTable />
        </Section>
      )}
      <AtHand about="results" offers={offers} />
      {state.results.imports.length > 0 && (
        <Section title="Files">
          <ImportsTable />
        </Section>
      )}
    </>
  )
}

function titleOf({ results, fieldwork }: InvestigationState): string {
  const known = results.resultsByLabel.size
  if (known === 0)
    return fieldwork.samples.size === 0 ? 'Results' : `No result yet of ${fieldwork.samples.size} samples`
  const ours = [...fieldwork.samples.keys()].filter((label) => results.resultsByLabel.has(label)).length
  const others = known - ours
  const parts = [
    ours > 0 || fieldwork.samples.size > 0 ? `${ours} of ${fieldwork.samples.size} samples have a result` : '',
    others > 0 ? `${others} results of samples taken by others` : '',
  ]
  return parts.filter((part) => part !== '').join(', ')
}
