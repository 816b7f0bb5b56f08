import { given } from '@rillmark/casebook/entry/given.ts'
import { CONDITIONS } from '@rillmark/casebook/custody/kinds.ts'
import type { Condition } from '@rillmark/casebook/custody/sample-custody.ts'
import { type ReactNode, useState } from 'react'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { instantIn, numberIn, textIn } from '../store/typed-values.ts'
import { useWriting } from '../store/use-writing.ts'
import type { BoxDialogProps } from './box-dialog.ts'
import { type Exception, ExceptionRows } from './ExceptionRows.tsx'
import { SEAL_STATES, type SealState } from './seal-states.ts'
import { typedIssues } from './typed-issues.ts'
import { WhenAndWarm } from './WhenAndWarm.tsx'
import { WorkerFields } from './WorkerFields.tsx'

/** The laboratory takes a box in: by whom, how warm, and every sample accepted but those marked. */
export function ReceiptDialog({ box, onClose }: BoxDialogProps): ReactNode {
  const { state } = useInvestigation()
  const { issues, busy, write, object } = useWriting()
  const [laboratory, setLaboratory] = useState(
    () =>
      [...state.custody.consignments.values()].findLast(({ received }) => received)?.received?.body.laboratory ?? '',
  )
  const [receivedBy, setReceivedBy] = useState({ name: '', role: 'laboratory reception' })
  const [seal, setSeal] = useState<SealState | ''>('')
  const [at, setAt] = useState('')
  const [temperature, setTemperature] = useState('')
  const [exceptions, setExceptions] = useState<readonly Exception[]>([])
  const act = async (): Promise<void> => {
    const typed = typedIssues({ at, temperature, seal })
    if (typed.length > 0) return object(typed)
    const conditions = new Map(exceptions.map((one) => [one.label, one]))
    const samples = box.samples.map(({ label }) => {
      const one = conditions.get(label)
      const condition: Condition = one?.condition ?? CONDITIONS[0]
      return { label, condition, ...given({ notes: textIn(one?.notes ?? '') }) }
    })
    const more = given({ at: instantIn(at), temperatureC: numberIn(temperature) })
    const body = { consignment: box.code, laboratory, receivedBy, sealIntact: seal === 'intact', ...more, samples }
    if (await write('consignment.received', body)) onClose()
  }
  return (
    <WritingDialog
      title={`Laboratory receipt of ${box.code}`}
      act="Record the receipt"
      issues={issues}
      busy={busy}
      onWrite={act}
      onClose={onClose}
      size="wide"
    >
      <TextField label="Laboratory" value={laboratory} onChange={setLaboratory} required width="full" focusFirst />
      <WorkerFields label="Received by" value={receivedBy} onChange={setReceivedBy} />
      <RadioRow label="Seal" value={seal} onChange={setSeal} choices={SEAL_STATES} />
      <WhenAndWarm at={at} onAt={setAt} temperature={temperature} onTemperature={setTemperature} />
      <ExceptionRows samples={box.samples} exceptions={exceptions} onChange={setExceptions} />
    </WritingDialog>
  )
}
