import { given } from '@rillmark/casebook/entry/given.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useState } from 'react'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { instantIn, numberIn, textIn } from '../store/typed-values.ts'
import { useWriting } from '../store/use-writing.ts'
import type { BoxDialogProps } from './box-dialog.ts'
import { SEAL_STATES, type SealState } from './seal-states.ts'
import { typedIssues } from './typed-issues.ts'
import { WhenAndWarm } from './WhenAndWarm.tsx'

/** The receiver's half of a hand-over, written on their own device. */
export function AcceptDialog({ box, onClose }: BoxDialogProps): ReactNode {
  const { issues, busy, write, object } = useWriting()
  const [seal, setSeal] = useState<SealState | ''>('')
  const [at, setAt] = useState('')
  const [temperature, setTemperature] = useState('')
  const [notes, setNotes] = useState('')
  const { waiting } = box
  if (waiting === undefined) return null
  const act = async (): Promise<void> => {
    const typed = typedIssues({ at, temperature, seal })
    if (typed.length > 0) return object(typed)
    const more = given({ at: instantIn(at), temperatureC: numberIn(temperature), notes: textIn(notes) })
    const body = { consignment: box.code, handOver: waiting.id, by: waiting.to, sealIntact: seal === 'intact', ...more }
    if (await write('consignment.accepted', body)) onClose()
  }
  return (
    <WritingDialog
      title={`Accept ${box.code}`}
      act={`I am ${waiting.to.name} and take it over`}
      issues={issues}
      busy={busy}
      onWrite={act}
      onClose={onClose}
    >
      <p>
        {box.holder.name} hands {box.code} with {counted(box.samples.length, 'sample')} to {waiting.to.name},{' '}
        {waiting.to.role}. From here on you hold it.
      </p>
      <RadioRow
        label={box.seal === undefined ? 'Seal (none is on it)' : `Seal ${box.seal}`}
        value={seal}
        onChange={setSeal}
        choices={SEAL_STATES}
      />
      <WhenAndWarm at={at} onAt={setAt} temperature={temperature} onTemperature={setTemperature} />
      <TextField label="Notes" value={notes} onChange={setNotes} width="full" />
    </WritingDialog>
  )
}
