import type { ReactNode } from 'react'
import { QuantityField } from '../form/QuantityField.tsx'
import { DateTimeField } from '../kit/DateTimeField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { ArrivalRows, type ArrivedSample } from './ArrivalRows.tsx'
import type { ReceiptDraft } from './receipt-draft.ts'

const SEAL = [
  { id: 'intact', label: 'whole' },
  { id: 'broken', label: 'open, broken or missing' },
] as const

/** What a laboratory says of a consignment: who, the seal, how warm it was, and every sample. */
export function ReceiptFields(props: {
  readonly draft: ReceiptDraft
  readonly onChange: (draft: ReceiptDraft) => void
  readonly samples: readonly ArrivedSample[]
  /** the seal as the record has it */
  readonly seal: string | undefined
  readonly focusFirst?: boolean
}): ReactNode {
  const { draft, onChange, samples } = props
  const put = (change: Partial<ReceiptDraft>): void => onChange({ ...draft, ...change })
  const { receivedBy } = draft
  return (
    <>
      <TextField
        label="Laboratory"
        value={draft.laboratory}
        onChange={(laboratory) => put({ laboratory })}
        required
        width="full"
        focusFirst={props.focusFirst}
      />
      <FormRow>
        <TextField
          label="Received by, name"
          value={receivedBy.name}
          onChange={(name) => put({ receivedBy: { ...receivedBy, name } })}
          required
        />
        <TextField
          label="Received by, role"
          value={receivedBy.role}
          onChange={(role) => put({ receivedBy: { ...receivedBy, role } })}
          required
        />
      </FormRow>
      <RadioRow label="Seal" value={draft.seal} onChange={(seal) => put({ seal })} choices={SEAL} />
      {props.seal !== undefined && (
        <TextField
          label="Number on the seal, as read"
          hint={`The record says ${props.seal}.`}
          value={draft.sealRead}
          onChange={(sealRead) => put({ sealRead })}
          mono
        />
      )}
      <FormRow>
        <DateTimeField label="When" hint="Leave empty for now." value={draft.at} onChange={(at) => put({ at })} />
        <QuantityField
          label="Temperature in the box"
          unit="°C"
          value={draft.temperature}
          onChange={(temperature) => put({ temperature })}
        />
      </FormRow>
      <ArrivalRows samples={samples} noted={draft.noted} onChange={(noted) => put({ noted })} />
    </>
  )
}
