import type { Device } from '@rillmark/casebook/building/devices.ts'
import { DEVICES_TO_SWEEP, OTHER_DEVICE, deviceName } from '@rillmark/casebook/building/devices.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import { AddPartDialog } from './AddPartDialog.tsx'
import type { Selected } from './BuildingInHand.tsx'
import { DeviceDialog } from './DeviceDialog.tsx'
import { SweptLine } from './SweptLine.tsx'

export type Swept = EffectiveEntry<'device.swept'>

const sweptIn = ({ building }: InvestigationState) => new Map(building.sweep)

export interface SweepProps {
  readonly system: WaterSystem
  readonly onSelect: (selected: Selected) => void
  readonly onHover: (id: string | undefined) => void
}

/** Everything that wets air, one by one: found, not there, or not looked at yet. */
export function SweepAside({ system, onSelect, onHover }: SweepProps): ReactNode {
  const { propose } = useInvestigation()
  const { say } = useToasts()
  const swept = useDerived(sweptIn)
  const [asking, setAsking] = useState<{ device: string; state: 'present' | 'absent'; answered?: Swept | undefined }>()
  const [adding, setAdding] = useState<{ answered: Swept; device: Device | undefined }>()
  const others = [...swept.keys()].filter((id) => id.startsWith(OTHER_DEVICE))

  /** Nothing more is asked where a device simply is not there. */
  const absent = async (device: string): Promise<void> => {
    const proposed = await propose('device.swept', { device, state: 'absent' })
    if (!proposed.ok) return
    const corrects = { entry: proposed.entry.id, reason: 'taken back at once' }
    say(`${deviceName(device)}: not there.`, { undo: () => void propose('entry.withdrawn', {}, { corrects }) })
  }
  const link = async (answered: Swept, component: string): Promise<void> => {
    const corrects = { entry: answered.id, reason: 'now on the drawing' }
    await propose('device.swept', { ...answered.body, component }, { corrects })
  }
  const line = (id: string, device?: Device): ReactNode => (
    <SweptLine
      key={id}
      id={id}
      device={device}
      answered={swept.get(id)}
      system={system}
      onAbsent={() => void absent(id)}
      onAsk={(state) => setAsking({ device: id, state, answered: swept.get(id) })}
      onAdd={(answered) => setAdding({ answered, device })}
      onSelect={onSelect}
      onHover={onHover}
    />
  )

  return (
    <>
      <PageHead
        title={progressWords(swept)}
        name="What wets air · Building"
        lead="The source is often what nobody listed. Ask, and look, for each of these."
        actions={<Button onPress={() => setAsking({ device: OTHER_DEVICE, state: 'present' })}>Something else</Button>}
      />
      <ul className="sweep">
        {others.map((id) => line(id))}
        {DEVICES_TO_SWEEP.map((device) => line(device.id, device))}
      </ul>
      {asking !== undefined && <DeviceDialog {...asking} system={system} onClose={() => setAsking(undefined)} />}
      {adding !== undefined && (
        <AddPartDialog
          system={system}
          kind={adding.device?.componentKind ?? 'other'}
          onClose={() => setAdding(undefined)}
          onAdded={(component) => void link(adding.answered, component)}
        />
      )}
    </>
  )
}

function progressWords(swept: ReadonlyMap<string, Swept>): string {
  const answered = [...swept.values()].filter(({ body }) => body.state !== 'not looked at')
  const found = answered.filter(({ body }) => body.state === 'present').length
  const listed = DEVICES_TO_SWEEP.filter(({ id }) => answered.some(({ body }) => body.device === id)).length
  const open = DEVICES_TO_SWEEP.length - listed
  if (answered.length === 0) return `${DEVICES_TO_SWEEP.length} kinds of device to look for`
  const outcome = found === 0 ? 'None found' : `${found} found`
  return open === 0
    ? `${outcome}; everything was looked for`
    : `${outcome}, ${open} of ${DEVICES_TO_SWEEP.length} not looked for yet`
}
