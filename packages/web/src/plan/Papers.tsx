import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Note } from '../kit/Note.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { fetchDocument, saveDocument } from '../store/fetch-document.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { unitsQuery } from '../store/reader-units.ts'

const PAPERS = [
  { kind: 'labels.pdf', words: 'Labels' },
  { kind: 'run-sheets.pdf', words: 'Run sheets' },
  { kind: 'kit-list.pdf', words: 'Kit list' },
] as const

const SIZES = [
  { id: 'a4', label: 'A4' },
  { id: 'letter', label: 'Letter' },
] as const

/** The papers of an adopted round, made by the server as PDF. */
export function Papers({ round }: { readonly round: string }): ReactNode {
  const { id, sync } = useInvestigation()
  const { units } = usePreferences()
  const [paper, setPaper] = useState<'a4' | 'letter'>('a4')
  const [busy, setBusy] = useState<string>()
  const [message, setMessage] = useState<string>()
  const fetchIt = async (kind: string): Promise<void> => {
    setBusy(kind)
    setMessage(undefined)
    const fetched = await fetchDocument({
      investigation: id,
      kind,
      query: { round, paper, ...(kind === 'run-sheets.pdf' ? unitsQuery(units) : {}) },
    })
    setBusy(undefined)
    if (fetched.ok) saveDocument(fetched)
    else setMessage(fetched.message)
  }
  return (
    <div className="stack">
      <RadioRow label="Paper" value={paper} onChange={setPaper} choices={SIZES} />
      <ButtonRow>
        {PAPERS.map(({ kind, words }) => (
          <Button
            key={kind}
            busy={busy === kind}
            onPress={() => void fetchIt(kind)}
            name={`${words} of round ${round}, PDF`}
          >
            {words} (PDF)
          </Button>
        ))}
      </ButtonRow>
      {message !== undefined && <Note kind="warn">{message}</Note>}
      {message === undefined && sync.pending > 0 && (
        <p className="faint">{sync.words}; papers show what has reached the server.</p>
      )}
    </div>
  )
}
