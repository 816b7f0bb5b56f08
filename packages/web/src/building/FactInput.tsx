import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { ReactNode } from 'react'
import { QuantityField } from '../form/QuantityField.tsx'
import { Select } from '../kit/Select.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { TextField } from '../kit/TextField.tsx'
import type { FactField } from './facts.ts'
import { PartChoice } from './PartChoice.tsx'

/** The field one fact is typed into. */
export function FactInput(props: {
  readonly field: FactField
  readonly value: string
  readonly onChange: (value: string) => void
  readonly issue: string | undefined
  readonly system: WaterSystem
}): ReactNode {
  const { field, value, onChange, issue, system } = props
  const common = { label: field.label, value, onChange, issue }
  switch (field.kind) {
    case 'choice':
      return <Select {...common} choices={field.choices ?? []} width="narrow" />
    case 'number':
    case 'whole':
      return (
        <QuantityField {...common} unit={field.unit === '' ? undefined : field.unit} whole={field.kind === 'whole'} />
      )
    case 'part':
      return <PartChoice label={field.label} system={system} value={value} onChange={onChange} issue={issue} />
    case 'long':
      return <TextArea {...common} rows={2} />
    case 'draws':
      return <TextField {...common} width="full" />
    default:
      return <TextField {...common} width="narrow" />
  }
}
