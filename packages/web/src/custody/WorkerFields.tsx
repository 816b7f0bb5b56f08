import type { ReactNode } from 'react'
import { FormRow } from '../kit/FormRow.tsx'
import { TextField } from '../kit/TextField.tsx'

export interface Worker {
  readonly name: string
  readonly role: string
}

/** Who, and in which role. */
export function WorkerFields(props: {
  readonly label: string
  readonly value: Worker
  readonly onChange: (worker: Worker) => void
  readonly focusFirst?: boolean
}): ReactNode {
  const { label, value, onChange } = props
  return (
    <FormRow>
      <TextField
        label={`${label}, name`}
        value={value.name}
        onChange={(name) => onChange({ ...value, name })}
        required
        focusFirst={props.focusFirst}
      />
      <TextField
        label={`${label}, role`}
        value={value.role}
        onChange={(role) => onChange({ ...value, role })}
        required
      />
    </FormRow>
  )
}
