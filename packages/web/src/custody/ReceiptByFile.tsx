import { receiptForm, type ReceiptBody } from '@rillmark/casebook/custody/receipt-form.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { FileDrop } from '../kit/FileDrop.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { saveDocument } from '../store/fetch-document.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { localInstant } from '../store/local-time.ts'
import { useWriting } from '../store/use-writing.ts'

/** The receipt by a file: a form made for this box, sent out, filled in, and read back with every row checked. */
export function ReceiptByFile({ code }: { readonly code: string }): ReactNode {
  const { id, state } = useInvestigation()
  const { issues, busy, write } = useWriting()
  const [found, setFound] = useState<readonly Issue[]>([])
  const [receipt, setReceipt] = useState<ReceiptBody>()
  const save = async (): Promise<void> => {
    const form = receiptForm(state, code)
    if (form === undefined) return
    const { receiptCsv } = await import('@rillmark/exchange/custody/receipt-csv.ts')
    const blob = new Blob([receiptCsv(form, { offset: localInstant().offset })], { type: 'text/csv;charset=utf-8' })
    saveDocument({ blob, fileName: `${id}-${code}-receipt.csv` })
  }
  const read = async (file: File): Promise<void> => {
    const form = receiptForm(state, code)
    if (form === undefined) return
    const { readReceiptCsv } = await import('@rillmark/exchange/custody/read-receipt-csv.ts')
    const answer = readReceiptCsv(new Uint8Array(await file.arrayBuffer()), form)
    setFound(answer.ok ? [] : answer.issues)
    setReceipt(answer.ok ? answer.receipt : undefined)
  }
  return (
    <div className="stack">
      <div>
        <Button onPress={() => void save()} name={`Receipt form (CSV), ${code}`}>
          Receipt form (CSV)
        </Button>
      </div>
      <FileDrop
        label="the form as the laboratory filled it in"
        accept={['.csv', 'text/csv']}
        onFiles={([file]) => file !== undefined && void read(file)}
      />
      <ProblemList problems={found} />
      {receipt !== undefined && (
        <>
          <p>
            {receipt.laboratory}, {receipt.receivedBy.name}: {receipt.samples.length} samples,{' '}
            {receipt.samples.filter(({ condition }) => condition !== 'accepted').length} not simply accepted.
          </p>
          <ProblemList problems={issues} />
          <div>
            <Button
              kind="primary"
              busy={busy}
              onPress={() => void write('consignment.received', { consignment: code, ...receipt })}
            >
              Record this receipt
            </Button>
          </div>
        </>
      )}
    </div>
  )
}
