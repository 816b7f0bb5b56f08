import type { ReactNode } from 'react'
import { DateTimeField } from '../kit/DateTimeField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { QuantityField } from '../form/QuantityField.tsx'

/** When it happened, left empty for now, and how warm it was in the box. */
export function WhenAndWarm(props: {
  readonly at: string
  readonly onAt: (at: string) => void
  readonly temperature: string
  readonly onTemperature: (temperature: string) => void
  readonly needed?: boolean
}): ReactNode {
  return (
    <FormRow>
      <DateTimeField label="When" hint="Leave empty for now." value={props.at} onChange={props.onAt} />
      <QuantityField
        label="Temperature in the box"
        unit="°C"
        value={props.temperature}
        onChange={props.onTemperature}
        required={props.needed}
      />
    </FormRow>
  )
}
