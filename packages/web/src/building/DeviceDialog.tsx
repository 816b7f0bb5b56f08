import { OTHER_DEVICE, deviceName } from '@rillmark/casebook/building/devices.ts'
import type { Component, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { isOutlet } from '@rillmark/casebook/building/water-system.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { PartChoice } from './PartChoice.tsx'
import type { Swept } from './SweepAside.tsx'

export interface DeviceDialogProps {
  readonly system: WaterSystem
  /** A device of the list, or the bare prefix for one the person names here. */
  readonly device: string
  readonly state: 'present' | 'absent'
  readonly answered?: Swept | undefined
  readonly onClose: () => void
}

const STATES = [
  { id: 'present', label: 'found' },
  { id: 'absent', label: 'not there' },
  { id: 'not looked at', label: 'not looked for' },
] as const

/** Where a device was found; or an earlier answer, amended with a reason. */
export function DeviceDialog(props: DeviceDialogProps): ReactNode {
  const { system, device, answered, onClose } = props
  const { propose } = useInvestigation()
  const own = device === OTHER_DEVICE
  const [name, setName] = useState('')
  const [body, setBody] = useState<BodyOf<'device.swept'>>({ ...answered?.body, device, state: props.state })
  const [reason, setReason] = useState('')
  const [issues, setIssues] = useState<readonly Issue[]>([])
  // An answer after "not looked for" takes nothing back: it is a new one.
  const amends = answered !== undefined && answered.body.state !== 'not looked at'

  const record = async (): Promise<void> => {
    const given = { ...tidy(body), device: own ? `${OTHER_DEVICE}${name.trim()}` : device }
    const corrects = amends ? { corrects: { entry: answered.id, reason } } : {}
    const proposed = await propose('device.swept', given, corrects)
    if (proposed.ok) onClose()
    else setIssues(proposed.issues)
  }

  return (
    <Dialog
      title={own ? 'Something else that wets air' : deviceName(device)}
      open
      onClose={onClose}
      mustAnswer
      actions={
        <>
          <Button
            kind="primary"
            disabled={(own && name.trim() === '') || (amends && reason.trim() === '')}
            onPress={() => void record()}
          >
            Record
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={issues} />
        {own && (
          <TextField
            label="What it is"
            value={name}
            onChange={setName}
            required
            focusFirst
            width="full"
            maxLength={50}
          />
        )}
        {amends && (
          <RadioRow
            label="It is"
            value={body.state}
            onChange={(state) => setBody({ ...body, state })}
            choices={STATES}
          />
        )}
        {body.state === 'present' && <WhereFound system={system} body={body} onChange={setBody} focusFirst={!own} />}
        <TextArea label="Notes" value={body.notes ?? ''} onChange={(notes) => setBody({ ...body, notes })} rows={2} />
        {amends && (
          <TextField label="Reason for the amendment" value={reason} onChange={setReason} required width="full" />
        )}
      </div>
    </Dialog>
  )
}

function WhereFound(props: {
  readonly system: WaterSystem
  readonly body: BodyOf<'device.swept'>
  readonly onChange: (body: BodyOf<'device.swept'>) => void
  readonly focusFirst: boolean
}): ReactNode {
  const { system, body, onChange, focusFirst } = props
  return (
    <>
      <TextField
        label="Place"
        hint="As anyone could find it again."
        value={body.place ?? ''}
        onChange={(place) => onChange({ ...body, place })}
        focusFirst={focusFirst}
        width="full"
      />
      <PartChoice
        label="On the drawing"
        hint="If it is drawn already. It can be added after."
        system={system}
        value={body.component ?? ''}
        onChange={(component) => onChange({ ...body, component })}
        among={isPlace}
        width="full"
      />
    </>
  )
}

const isPlace = (component: Component): boolean => isOutlet(component)

function tidy({ place, component, notes, ...rest }: BodyOf<'device.swept'>): BodyOf<'device.swept'> {
  const found = rest.state === 'present'
  return {
    ...rest,
    ...(found && place !== undefined && place.trim() !== '' ? { place } : {}),
    ...(found && component !== undefined && component !== '' ? { component } : {}),
    ...(notes !== undefined && notes.trim() !== '' ? { notes } : {}),
  }
}
