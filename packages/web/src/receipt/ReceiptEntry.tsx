import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { Note } from '../kit/Note.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { keep, readKept } from '../store/keep.ts'
import { emptyReceipt, receiptOf } from './receipt-draft.ts'
import { ReceiptFields } from './ReceiptFields.tsx'
import { type OpenedForm, sendReceipt } from './receipt-port.ts'

/** The receipt while the laboratory fills it in. What was typed stays on the page whatever the network does. */
export function ReceiptEntry(props: {
  readonly form: OpenedForm
  readonly token: string
  readonly onReceived: () => void
}): ReactNode {
  const { form, token } = props
  const [draft, setDraft] = useState(() => emptyReceipt(keptLaboratory()))
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const [trouble, setTrouble] = useState<string>()
  const [busy, setBusy] = useState(false)
  const send = async (): Promise<void> => {
    setTrouble(undefined)
    const read = receiptOf(
      draft,
      form.samples.map(({ label }) => label),
    )
    if (!read.ok) return setIssues(read.issues)
    setIssues([])
    setBusy(true)
    const sent = await sendReceipt(token, read.receipt)
    setBusy(false)
    if (sent.kind === 'refused') return setIssues(sent.issues)
    if (sent.kind === 'unreachable')
      return setTrouble('The server can’t be reached. What you typed is still here; send it again when it answers.')
    if (sent.kind === 'no way in') return setTrouble('This link has ended. Ask the sender for a new one.')
    keep('laboratory', read.receipt.laboratory)
    props.onReceived()
  }
  return (
    <div className="form">
      <Disclosure summary={`The samples in ${form.consignment}`} open={form.samples.length <= FEW}>
        <ol className="receipt-samples">
          {form.samples.map((sample) => (
            <li key={sample.label}>
              <b className="mono">{sample.label}</b>
              <span>{sample.kind}</span>
              <span className="quiet">
                collected {wallClock({ instant: sample.collectedAt, offset: sample.offset })}
                {sample.deadline !== undefined &&
                  `, examine by ${wallClock({ instant: sample.deadline, offset: sample.offset })}`}
              </span>
            </li>
          ))}
        </ol>
      </Disclosure>
      <ReceiptFields
        draft={draft}
        onChange={setDraft}
        samples={form.samples.map(({ label, kind }) => ({ label, words: kind }))}
        seal={form.seal}
      />
      <ProblemList problems={issues} />
      {trouble !== undefined && <Note kind="bad">{trouble}</Note>}
      <div>
        <Button kind="primary" size="big" busy={busy} onPress={() => void send()}>
          Send the receipt
        </Button>
      </div>
    </div>
  )
}

const FEW = 12

function keptLaboratory(): string {
  const kept = readKept('laboratory')
  return typeof kept === 'string' ? kept : ''
}
