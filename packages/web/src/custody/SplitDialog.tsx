import type { SampleCustody } from '@rillmark/casebook/custody/sample-custody.ts'
import { given } from '@rillmark/casebook/entry/given.ts'
import { issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { QuantityField } from '../form/QuantityField.tsx'
import { Caution } from '../kit/Caution.tsx'
import { DateTimeField } from '../kit/DateTimeField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { instantIn, numberIn, textIn } from '../store/typed-values.ts'
import { useWriting } from '../store/use-writing.ts'
import { typedIssues } from './typed-issues.ts'
import { WorkerFields } from './WorkerFields.tsx'

/** Divides a sample for another party: the part has its own label and its own custody from then on. */
export function SplitDialog({
  sample,
  onClose,
}: {
  readonly sample: SampleCustody
  readonly onClose: () => void
}): ReactNode {
  const { issues, busy, write, object } = useWriting()
  const [split, setSplit] = useState('')
  const [volume, setVolume] = useState('')
  const [to, setTo] = useState({ name: '', role: '' })
  const [purpose, setPurpose] = useState('')
  const [at, setAt] = useState('')
  const act = async (): Promise<void> => {
    const volumeMl = numberIn(volume)
    const typed = typedIssues({ at })
    if (volumeMl === undefined) typed.push(issue('volume', { expected: 'millilitres', received: volume }))
    if (typed.length > 0 || volumeMl === undefined) return object(typed)
    const more = given({ purpose: textIn(purpose), at: instantIn(at) })
    if (await write('sample.split', { label: sample.label, split: split.trim(), volumeMl, to, ...more })) onClose()
  }
  return (
    <WritingDialog
      title={`Split ${sample.label}`}
      act="Record the split"
      issues={issues}
      busy={busy}
      onWrite={act}
      onClose={onClose}
    >
      <FormRow>
        <TextField label="Label of the part" value={split} onChange={setSplit} required focusFirst mono />
        <QuantityField
          label="Volume of the part"
          unit="mL"
          hint={sample.leftMl === undefined ? undefined : `${sample.leftMl} mL are left of ${sample.label}.`}
          value={volume}
          onChange={setVolume}
          required
        />
      </FormRow>
      <WorkerFields label="For" value={to} onChange={setTo} />
      <FormRow>
        <TextField label="What they want it for" value={purpose} onChange={setPurpose} />
        <DateTimeField label="When" hint="Leave empty for now." value={at} onChange={setAt} />
      </FormRow>
      <Caution>
        Two parts of one bottle are not equal: what clings and settles goes more into one. Mix before dividing; a swab
        can’t be divided. Where a result may be disputed, take two samples side by side instead.
      </Caution>
      <p className="faint">
        The part waits to be packed into a box of its own, with nothing but parts for the same party, and is handed over
        from there.
      </p>
    </WritingDialog>
  )
}
