import type { ConsignmentView } from '@rillmark/casebook/custody/custody-view.ts'
import { receiptForm, type ReceiptBody } from '@rillmark/casebook/custody/receipt-form.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import type { ReceiptReading } from '@rillmark/exchange/custody/read-receipt-csv.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { FileDrop } from '../kit/FileDrop.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { saveDocument } from '../store/fetch-document.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { localInstant } from '../store/local-time.ts'
import { useWriting } from '../store/use-writing.ts'
import { draftOfFile } from './draft-of-file.ts'
import { ReceiptDialog } from './ReceiptDialog.tsx'

/** The receipt by a file: a form made for this box, sent out, filled in, and read back with every row checked. */
export function ReceiptByFile({ box }: { readonly box: ConsignmentView }): ReactNode {
  const { id, state } = useInvestigation()
  const [reading, setReading] = useState<ReceiptReading>()
  const { code } = box
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
    setReading(readReceiptCsv(new Uint8Array(await file.arrayBuffer()), form))
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
      {reading?.ok === true && <Whole code={code} receipt={reading.receipt} />}
      {reading?.ok === false && <Faulty box={box} reading={reading} />}
    </div>
  )
}

function Whole({ code, receipt }: { readonly code: string; readonly receipt: ReceiptBody }): ReactNode {
  const { issues, busy, write } = useWriting()
  const { laboratory, receivedBy, at, samples } = receipt
  const noted = samples.filter(({ condition }) => condition !== 'accepted').length
  const when = at === undefined ? '' : `, ${wallClock(localInstant(Date.parse(at)))}`
  return (
    <>
      <p>
        {laboratory}, {receivedBy.name}
        {when}: {counted(samples.length, 'sample')}, {noted} not simply accepted.
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
  )
}

/** What is wrong, and what can still be used: a person says the rest, and nothing is written before. */
function Faulty(props: {
  readonly box: ConsignmentView
  readonly reading: Extract<ReceiptReading, { ok: false }>
}): ReactNode {
  const { box, reading } = props
  const { issues, read } = reading
  const [completing, setCompleting] = useState(false)
  return (
    <>
      <ProblemList problems={issues} />
      {read !== undefined && (
        <>
          <p>
            Nothing is written yet. {read.samples.length} of {counted(box.samples.length, 'sample')} could be read: have
            the file set right and choose it again, or say the rest yourself.
          </p>
          <div>
            <Button onPress={() => setCompleting(true)}>Complete it by hand</Button>
          </div>
        </>
      )}
      {completing && read !== undefined && (
        <ReceiptDialog
          box={box}
          file={{ draft: draftOfFile(read), problems: issues }}
          onClose={() => setCompleting(false)}
        />
      )}
    </>
  )
}
