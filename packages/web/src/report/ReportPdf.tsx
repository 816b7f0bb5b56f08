import type { Head } from '@rillmark/casebook/chain/link.ts'
import type { Variant } from '@rillmark/casebook/report/model.ts'
import { type ReactNode, useEffect, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Note } from '../kit/Note.tsx'
import { Progress } from '../kit/Progress.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { DOCUMENT_OF } from './issue-report.ts'
import { unitsQuery } from '../store/reader-units.ts'
import { serverHead } from './server-head.ts'

/** The PDF as the server makes it now, in the browser's own reader. Each new entry, and each try, asks anew. */
export function ReportPdf({ variant }: { readonly variant: Variant }): ReactNode {
  const { state } = useInvestigation()
  const [attempt, setAttempt] = useState(1)
  const entries = state.record.entries.length
  return (
    <AskedPdf
      key={`${entries} ${attempt}`}
      entries={entries}
      variant={variant}
      onAgain={() => setAttempt(attempt + 1)}
    />
  )
}

function AskedPdf(props: {
  readonly entries: number
  readonly variant: Variant
  readonly onAgain: () => void
}): ReactNode {
  const { entries, variant, onAgain } = props
  const { id } = useInvestigation()
  const { units } = usePreferences()
  const [head, setHead] = useState<'asking' | 'unreached' | Head>('asking')
  useEffect(() => {
    let wanted = true
    void serverHead(id, entries).then((found) => {
      if (wanted) setHead(found ?? 'unreached')
    })
    return () => {
      wanted = false
    }
  }, [id, entries])
  if (head === 'asking') return <Progress label="Asking the server for the report" />
  if (head === 'unreached')
    return (
      <div className="stack">
        <Note kind="warn">
          The server can’t be reached, and the PDF is made there. The report in words, from this device, is under the
          other tab.
        </Note>
        <ButtonRow>
          <Button onPress={onAgain}>Try again</Button>
        </ButtonRow>
      </div>
    )
  const search = new URLSearchParams(unitsQuery(units)).toString()
  const address = `/api/investigations/${encodeURIComponent(id)}/documents/${DOCUMENT_OF[variant]}${search === '' ? '' : `?${search}`}`
  return (
    <div className="stack">
      {/* oxlint-disable-next-line react/iframe-missing-sandbox -- browsers show no PDF in a sandbox; it comes from this server */}
      <iframe
        key={address}
        className="report-frame"
        src={address}
        title={variant === 'full' ? 'Report, PDF' : 'Redacted report, PDF'}
      />
      <p>
        <a href={address} target="_blank" rel="noreferrer">
          Open the PDF in a window of its own
        </a>{' '}
        <span className="faint">It speaks of the {head.sequence} entries on the server.</span>
      </p>
    </div>
  )
}
