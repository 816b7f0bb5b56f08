import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { CheckboxField } from '../kit/CheckboxField.tsx'
import { Note } from '../kit/Note.tsx'
import { fetchDocument, saveDocument } from '../store/fetch-document.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { unitsQuery } from '../store/reader-units.ts'
import { KeepReceiptDialog } from './KeepReceiptDialog.tsx'

/** The submission sheet of a box: the paper from the server, the table made here, so it is there without a network too. */
export function BoxPapers({ code }: { readonly code: string }): ReactNode {
  const { id, state, sync } = useInvestigation()
  const { units } = usePreferences()
  const [codes, setCodes] = useState(false)
  const [keeping, setKeeping] = useState(false)
  const [busy, setBusy] = useState<'pdf' | 'csv'>()
  const [message, setMessage] = useState<string>()
  const pdf = async (): Promise<void> => {
    setBusy('pdf')
    setMessage(undefined)
    const query = { consignment: code, codes: codes ? 'yes' : 'no', ...unitsQuery(units) }
    const fetched = await fetchDocument({ investigation: id, kind: 'submission.pdf', query })
    setBusy(undefined)
    if (fetched.ok) saveDocument(fetched)
    else setMessage(fetched.message)
  }
  const csv = async (): Promise<void> => {
    setBusy('csv')
    const [{ submissionOf }, { submissionCsv }] = await Promise.all([
      import('@rillmark/exchange/custody/submission.ts'),
      import('@rillmark/exchange/custody/submission-csv.ts'),
    ])
    setBusy(undefined)
    const submission = submissionOf(state, { consignment: code })
    if ('issues' in submission) return
    const blob = new Blob([submissionCsv(submission)], { type: 'text/csv;charset=utf-8' })
    saveDocument({ blob, fileName: `${id}-${code}-submission.csv` })
  }
  return (
    <div className="stack">
      <ButtonRow>
        <Button busy={busy === 'pdf'} onPress={() => void pdf()} name={`Submission sheet (PDF), ${code}`}>
          Submission sheet (PDF)
        </Button>
        <Button busy={busy === 'csv'} onPress={() => void csv()} name={`Table (CSV), ${code}`}>
          Table (CSV)
        </Button>
        <Button onPress={() => setKeeping(true)} name={`Receipt to keep of ${code}`}>
          Receipt to keep
        </Button>
      </ButtonRow>
      <CheckboxField label="With a Data Matrix beside each label" checked={codes} onChange={setCodes} />
      {keeping && <KeepReceiptDialog label={code} onClose={() => setKeeping(false)} />}
      {message !== undefined && <Note kind="warn">{message}</Note>}
      {message === undefined && sync.pending > 0 && (
        <p className="faint">{sync.words}; the PDF shows what has reached the server.</p>
      )}
    </div>
  )
}
