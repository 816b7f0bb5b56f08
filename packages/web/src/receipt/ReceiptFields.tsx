import { type ReactNode, useState } from 'react'
import { QuantityField } from '../form/QuantityField.tsx'
import { DateTimeField } from '../kit/DateTimeField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { ArrivalRows, type ArrivedSample } from './ArrivalRows.tsx'
import { type ReceiptDraft, sealCompared } from './receipt-draft.ts'

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
  /** it was at another time than now */
  readonly whenNeeded?: boolean
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
        <SealRead value={draft.sealRead} onChange={(sealRead) => put({ sealRead })} recorded={props.seal} />
      )}
      <FormRow>
        <DateTimeField
          label="When"
          hint={props.whenNeeded === true ? undefined : 'Leave empty for now.'}
          required={props.whenNeeded}
          value={draft.at}
          onChange={(at) => put({ at })}
        />
        <QuantityField
          label="Temperature in the box"
          unit="°C"
          value={draft.temperature}
          onChange={(temperature) => put({ temperature })}
        />
      </FormRow>
      <ArrivalRows samples={samples} said={draft} onChange={({ accepted, noted }) => put({ accepted, noted })} />
    </>
  )
}

/** The number is read off the seal first; the one in the record is shown beside it only after. */
function SealRead(props: {
  readonly value: string
  readonly onChange: (read: string) => void
  readonly recorded: string
}): ReactNode {
  const [left, setLeft] = useState(false)
  const compared = left ? sealCompared(props.value, props.recorded) : undefined
  return (
    <TextField
      label="Number on the seal, as read"
      value={props.value}
      onChange={props.onChange}
      onBlur={() => setLeft(props.value.trim() !== '')}
      hint={compared?.same === false ? undefined : compared?.words}
      issue={compared?.same === false ? compared.words : undefined}
      mono
    />
  )
}
