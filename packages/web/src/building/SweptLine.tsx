import { deviceName } from '@rillmark/casebook/building/devices.ts'
import type { Device } from '@rillmark/casebook/building/devices.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { Tag } from '../kit/Tag.tsx'
import type { Swept, SweepProps } from './SweepAside.tsx'
import { nameIn } from './words.ts'

export interface SweptLineProps extends SweepProps {
  readonly id: string
  /** From the list; a device someone named themselves has none. */
  readonly device: Device | undefined
  readonly answered: Swept | undefined
  readonly onAbsent: () => void
  readonly onAsk: (state: 'present' | 'absent') => void
  readonly onAdd: (answered: Swept) => void
}

/** One device to look for: where, why, and the answer. */
export function SweptLine(props: SweptLineProps): ReactNode {
  const { id, device, answered, onAsk } = props
  const name = deviceName(id)
  const state = answered?.body.state ?? 'not looked at'
  return (
    <li
      className="swept"
      data-state={state}
      onPointerEnter={() => props.onHover(answered?.body.component)}
      onPointerLeave={() => props.onHover(undefined)}
    >
      <div className="swept-head">
        <h2>{name}</h2>
        <StateTag state={state} />
      </div>
      {answered?.body.place !== undefined && <p>{answered.body.place}</p>}
      {answered?.body.notes !== undefined && <p className="quiet">{answered.body.notes}</p>}
      {device !== undefined && state !== 'absent' && (
        <p className="quiet swept-why">
          Look: {device.where}. Why: {device.why}.
        </p>
      )}
      <div className="swept-acts">
        {state === 'not looked at' ? (
          <>
            <Button name={`${name}: found`} onPress={() => onAsk('present')}>
              Found
            </Button>
            <Button name={`${name}: not there`} onPress={props.onAbsent}>
              Not there
            </Button>
          </>
        ) : (
          <>
            {answered !== undefined && state === 'present' && <OnDrawing {...props} answered={answered} />}
            <Button kind="text" name={`Amend ${name}`} onPress={() => onAsk(state)}>
              Amend
            </Button>
          </>
        )}
      </div>
    </li>
  )
}

function StateTag({ state }: { readonly state: 'present' | 'absent' | 'not looked at' }): ReactNode {
  if (state === 'present')
    return (
      <Tag shape="full" kind="accent">
        found
      </Tag>
    )
  if (state === 'absent') return <Tag shape="dash">not there</Tag>
  return (
    <Tag shape="dashed" kind="faint">
      not looked for
    </Tag>
  )
}

function OnDrawing(props: SweptLineProps & { readonly answered: Swept; readonly system: WaterSystem }): ReactNode {
  const { component } = props.answered.body
  if (component === undefined) return <Button onPress={() => props.onAdd(props.answered)}>Add it to the drawing</Button>
  return (
    <Button kind="text" onPress={() => props.onSelect({ kind: 'part', id: component })}>
      {nameIn(props.system, component)}
    </Button>
  )
}
