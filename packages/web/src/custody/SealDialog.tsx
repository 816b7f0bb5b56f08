import { given } from '@rillmark/casebook/entry/given.ts'
import { type ReactNode, useState } from 'react'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { instantIn, numberIn } from '../store/typed-values.ts'
import { useWriting } from '../store/use-writing.ts'
import type { BoxDialogProps } from './box-dialog.ts'
import { typedIssues } from './typed-issues.ts'
import { WhenAndWarm } from './WhenAndWarm.tsx'

/** Puts a seal on a box: from then on it takes no sample and gives none up. */
export function SealDialog({ box, onClose }: BoxDialogProps): ReactNode {
  const { issues, busy, write, object } = useWriting()
  const [seal, setSeal] = useState('')
  const [at, setAt] = useState('')
  const [temperature, setTemperature] = useState('')
  const act = async (): Promise<void> => {
    const typed = typedIssues({ at, temperature })
    if (typed.length > 0) return object(typed)
    const body = { consignment: box.code, seal, ...given({ at: instantIn(at), temperatureC: numberIn(temperature) }) }
    if (await write('consignment.sealed', body)) onClose()
  }
  return (
    <WritingDialog title={`Seal ${box.code}`} act="Seal it" issues={issues} busy={busy} onWrite={act} onClose={onClose}>
      <p className="quiet">
        {box.samples.length} samples are in it. Once sealed, nothing goes in or out until the seal is opened with a
        reason.
      </p>
      <TextField label="Number on the seal" value={seal} onChange={setSeal} required focusFirst mono />
      <WhenAndWarm at={at} onAt={setAt} temperature={temperature} onTemperature={setTemperature} />
    </WritingDialog>
  )
}
