import { given } from '@rillmark/casebook/entry/given.ts'
import { issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { instantIn, numberIn, textIn } from '../store/typed-values.ts'
import { useWriting } from '../store/use-writing.ts'
import type { BoxDialogProps } from './box-dialog.ts'
import { typedIssues } from './typed-issues.ts'
import { WhenAndWarm } from './WhenAndWarm.tsx'

/** Logs how warm it is in a box. */
export function TemperatureDialog({ box, onClose }: BoxDialogProps): ReactNode {
  const { issues, busy, write, object } = useWriting()
  const [at, setAt] = useState('')
  const [temperature, setTemperature] = useState('')
  const [where, setWhere] = useState('')
  const act = async (): Promise<void> => {
    const typed = typedIssues({ at, temperature })
    if (typed.length > 0) return object(typed)
    const temperatureC = numberIn(temperature)
    if (temperatureC === undefined)
      return object([issue('temperature', { expected: 'a temperature', received: undefined })])
    const more = given({ at: instantIn(at), where: textIn(where) })
    if (await write('temperature.logged', { consignment: box.code, temperatureC, ...more })) onClose()
  }
  return (
    <WritingDialog
      title={`Temperature in ${box.code}`}
      act="Log it"
      issues={issues}
      busy={busy}
      onWrite={act}
      onClose={onClose}
    >
      <WhenAndWarm at={at} onAt={setAt} temperature={temperature} onTemperature={setTemperature} needed />
      <TextField
        label="Where it was read"
        hint="For example: between the bottles."
        value={where}
        onChange={setWhere}
        width="full"
      />
    </WritingDialog>
  )
}
