import { given } from '@rillmark/casebook/entry/given.ts'
import { issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { instantIn, numberIn, textIn } from '../store/typed-values.ts'
import { useDevice } from '../store/device.tsx'
import { useWriting } from '../store/use-writing.ts'
import type { BoxDialogProps } from './box-dialog.ts'
import { SEAL_STATES, type SealState } from './seal-states.ts'
import { signatureOf, signingIssues, UNSIGNED } from './signing.ts'
import { SignedPart } from './SignedPart.tsx'
import { typedIssues } from './typed-issues.ts'
import { WhenAndWarm } from './WhenAndWarm.tsx'
import { WorkerFields } from './WorkerFields.tsx'

/** A box goes from one hand to the next. */
export function HandOverDialog({ box, onClose }: BoxDialogProps): ReactNode {
  const { issues, busy, write, object } = useWriting()
  const { dropAttachment, putAttachment } = useDevice()
  const first = box.holder.role === 'opened it'
  const [from, setFrom] = useState({ name: box.holder.name, role: first ? '' : box.holder.role })
  const [to, setTo] = useState({ name: '', role: '' })
  const [seal, setSeal] = useState<SealState | ''>('')
  const [at, setAt] = useState('')
  const [temperature, setTemperature] = useState('')
  const [notes, setNotes] = useState('')
  const [signing, setSigning] = useState(UNSIGNED)
  const act = async (): Promise<void> => {
    const typed = [...typedIssues({ at, temperature, seal }), ...signingIssues(signing)]
    if (typed.length > 0) return object(typed)
    let sha256 = ''
    try {
      if (signing.picture !== undefined) sha256 = (await putAttachment(signing.picture)).sha256
    } catch (error) {
      return object([issue('signature', { expected: 'a picture that can be kept here', received: String(error) })])
    }
    const more = given({ at: instantIn(at), temperatureC: numberIn(temperature), notes: textIn(notes) })
    const body = {
      consignment: box.code,
      from,
      to,
      sealIntact: seal === 'intact',
      ...more,
      ...signatureOf(signing, sha256),
    }
    if (await write('consignment.handed-over', body)) onClose()
    // signed anew, it is another picture: this one is no entry's
    else if (sha256 !== '') await dropAttachment(sha256)
  }
  return (
    <WritingDialog
      title={`Hand over ${box.code}`}
      act="Record the hand-over"
      issues={issues}
      busy={busy}
      onWrite={act}
      onClose={onClose}
      size="wide"
    >
      <WorkerFields label="Given by" value={from} onChange={setFrom} />
      <WorkerFields label="Taken by" value={to} onChange={setTo} focusFirst />
      <RadioRow
        label={box.seal === undefined ? 'Seal (none is on it)' : `Seal ${box.seal}`}
        value={seal}
        onChange={setSeal}
        choices={SEAL_STATES}
      />
      <WhenAndWarm at={at} onAt={setAt} temperature={temperature} onTemperature={setTemperature} />
      <TextField label="Notes" value={notes} onChange={setNotes} width="full" />
      <SignedPart receiver={to.name.trim()} draft={signing} onChange={setSigning} />
    </WritingDialog>
  )
}
