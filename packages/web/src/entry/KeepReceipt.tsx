import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Note } from '../kit/Note.tsx'
import { fetchDocument, saveDocument } from '../store/fetch-document.ts'
import { useInvestigation } from '../store/investigation.tsx'

type Form = 'receipt.json' | 'receipt.pdf'

/** What a laboratory or another party can keep of one sample or box: the receipt, made and signed by the server, and its page. */
export function KeepReceipt({ label }: { readonly label: string }): ReactNode {
  const { id, sync } = useInvestigation()
  const [busy, setBusy] = useState<Form>()
  const [message, setMessage] = useState<string>()
  const get = async (kind: Form): Promise<void> => {
    setBusy(kind)
    setMessage(undefined)
    const fetched = await fetchDocument({ investigation: id, kind, query: { sample: label } })
    setBusy(undefined)
    if (fetched.ok) saveDocument(fetched)
    else setMessage(fetched.message)
  }
  const act = (kind: Form, words: string): ReactNode => (
    <Button busy={busy === kind} onPress={() => void get(kind)} name={`${words}, ${label}`}>
      {words}
    </Button>
  )
  return (
    <div className="stack">
      <ButtonRow>
        {act('receipt.json', 'Receipt (file)')}
        {act('receipt.pdf', 'Page to keep (PDF)')}
      </ButtonRow>
      {message !== undefined && <Note kind="warn">{message}</Note>}
      {message === undefined && sync.pending > 0 && (
        <p className="faint">{sync.words}; a receipt holds what has reached the server.</p>
      )}
      <p className="faint">
        Whoever keeps it can show later that these entries were in the record and were not changed. The file is checked
        by the <a href="/verify.html">verifier</a>, without this record and without a network.
      </p>
    </div>
  )
}
