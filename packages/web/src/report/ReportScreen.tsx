import { dayOfRecord } from '@rillmark/casebook/report/day-of-record.ts'
import type { ReportModel, Variant } from '@rillmark/casebook/report/model.ts'
import { reportModel } from '@rillmark/casebook/report/report-model.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { type ReactNode, useCallback, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Note } from '../kit/Note.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Section } from '../kit/Section.tsx'
import { Split } from '../kit/Split.tsx'
import { Tabs } from '../kit/Tabs.tsx'
import { fetchDocument, saveDocument } from '../store/fetch-document.ts'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { IssueDialog } from './IssueDialog.tsx'
import { IssuedList } from './IssuedList.tsx'
import { DOCUMENT_OF } from './issue-report.ts'
import { unitsQuery } from '../store/reader-units.ts'
import './report.css'
import { ReportOutline } from './ReportOutline.tsx'
import { ReportPdf } from './ReportPdf.tsx'
import { ReportTexts } from './ReportTexts.tsx'

const VARIANTS = [
  { id: 'full', label: 'Whole' },
  { id: 'redacted', label: 'Redacted' },
] as const

const FACES = [
  { id: 'words', label: 'In words, with entries' },
  { id: 'pdf', label: 'As PDF' },
] as const

/** The report as it stands: in words and as PDF, with what the investigator adds, and the reports issued so far. */
export function ReportScreen(): ReactNode {
  const { sync } = useInvestigation()
  const [variant, setVariant] = useState<Variant>('full')
  const [face, setFace] = useState<'words' | 'pdf'>('words')
  const { units } = usePreferences()
  const model = useDerived(
    useCallback((state: InvestigationState) => shownModel(state, { variant, units }), [variant, units]),
  )
  return (
    <Split asideLabel="Your words and issued reports" aside={<ReportSide variant={variant} />}>
      <div className="stack">
        <PageHead
          title="Report"
          lead={`${model.header.title}: ${model.header.status}. Speaks of ${model.header.head.sequence} entries, up to ${model.header.today}.`}
        />
        <RadioRow label="Variant" value={variant} onChange={setVariant} choices={VARIANTS} />
        {sync.pending > 0 && <Note kind="warn">{sync.words}. The PDF speaks only of what has reached the server.</Note>}
        <Tabs label="face of the report" tabs={FACES} selected={face} onSelect={setFace}>
          {face === 'words' ? <ReportOutline model={model} /> : <ReportPdf variant={variant} />}
        </Tabs>
      </div>
    </Split>
  )
}

/** On screen the head is counted only: its hash is the server's to give, and the PDF names it. */
function shownModel(state: InvestigationState, how: { variant: Variant; units: DisplayUnits }): ReportModel {
  const head = { sequence: state.record.entries.length, hash: 'named in the PDF' }
  return reportModel(state, { head, ...how, today: dayOfRecord(state) })
}

function ReportSide({ variant }: { readonly variant: Variant }): ReactNode {
  const { id, sync } = useInvestigation()
  const { units } = usePreferences()
  const [issuing, setIssuing] = useState(false)
  const [busy, setBusy] = useState(false)
  const [message, setMessage] = useState<string>()
  const download = async (): Promise<void> => {
    setBusy(true)
    setMessage(undefined)
    const fetched = await fetchDocument({ investigation: id, kind: DOCUMENT_OF[variant], query: unitsQuery(units) })
    setBusy(false)
    if (fetched.ok) saveDocument(fetched)
    else setMessage(fetched.message)
  }
  const what = variant === 'full' ? 'whole' : 'redacted'
  return (
    <div className="stack">
      <Section title="Give it out">
        <ButtonRow>
          <Button kind="primary" disabled={sync.pending > 0} onPress={() => setIssuing(true)}>
            Issue the {what} report
          </Button>
          <Button busy={busy} onPress={() => void download()}>
            Save a draft (PDF)
          </Button>
        </ButtonRow>
        {sync.pending > 0 && <p className="faint">It can be issued once every entry has reached the server.</p>}
        {message !== undefined && <Note kind="warn">{message}</Note>}
      </Section>
      <Section title="In your words">
        <ReportTexts />
      </Section>
      <Section title="Issued">
        <IssuedList />
      </Section>
      {issuing && <IssueDialog variant={variant} onClose={() => setIssuing(false)} />}
    </div>
  )
}
