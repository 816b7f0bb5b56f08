import { issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { FormRow } from '../kit/FormRow.tsx'
import { QuantityField } from '../form/QuantityField.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { useAuthor } from '../store/author.tsx'
import { numberIn } from '../store/typed-values.ts'
import { useWriting } from '../store/use-writing.ts'
import { nextBoxCode } from './next-box-code.ts'

const CONTAINERS = ['cooler', 'box', 'bag', 'other'] as const

/** Opens a consignment: a box with a code of its own. */
export function OpenBoxDialog(props: {
  readonly onOpened: (code: string) => void
  readonly onClose: () => void
}): ReactNode {
  const { state, device } = useInvestigation()
  const { name } = useAuthor()
  const { issues, busy, write, object } = useWriting()
  const [code, setCode] = useState(() => nextBoxCode(state, { device, author: name }))
  const [container, setContainer] = useState<(typeof CONTAINERS)[number]>('cooler')
  const [lowest, setLowest] = useState('')
  const [highest, setHighest] = useState('')
  const open = async (): Promise<void> => {
    const [lower, upper] = [numberIn(lowest), numberIn(highest)]
    if (lower === undefined ? highest.trim() !== '' || lowest.trim() !== '' : upper === undefined)
      return object([
        issue('keep at', { expected: 'two temperatures, or neither', received: `${lowest} to ${highest}` }),
      ])
    const range = lower === undefined || upper === undefined ? {} : { transportC: { lower, upper } }
    if (await write('consignment.opened', { consignment: code, container, ...range })) props.onOpened(code.trim())
  }
  return (
    <WritingDialog
      title="Open a consignment"
      act="Open it"
      issues={issues}
      busy={busy}
      onWrite={open}
      onClose={props.onClose}
    >
      <FormRow>
        <TextField
          label="Code"
          hint="Write it on the box."
          value={code}
          onChange={setCode}
          required
          focusFirst
          width="narrow"
        />
        <Select
          label="Container"
          value={container}
          onChange={setContainer}
          choices={CONTAINERS.map((id) => ({ id, label: id }))}
        />
      </FormRow>
      <FormRow>
        <QuantityField label="Keep at, from" unit="°C" value={lowest} onChange={setLowest} />
        <QuantityField label="to" unit="°C" value={highest} onChange={setHighest} />
      </FormRow>
      <p className="faint">Leave the temperatures empty to use those of the samples’ procedures.</p>
    </WritingDialog>
  )
}
