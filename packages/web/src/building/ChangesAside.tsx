import { counted } from '@rillmark/casebook/units/counted.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import { type ReactNode, useState } from 'react'
import { WithdrawDialog } from '../entry/WithdrawDialog.tsx'
import { Button } from '../kit/Button.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { useDerived } from '../store/investigation.tsx'
import type { Selected } from './BuildingInHand.tsx'
import { EventForm } from './EventForm.tsx'
import { capital, nameIn } from './words.ts'

export type Recorded = EffectiveEntry<'history.recorded'>

const eventsIn = ({ building }: InvestigationState) =>
  building.history.toSorted((a, b) => (a.body.on < b.body.on ? 1 : -1))

export interface ChangesProps {
  readonly system: WaterSystem
  /** The places being picked on the drawing; undefined while nothing is picked. */
  readonly picked: ReadonlySet<string> | undefined
  readonly onPick: (picked: ReadonlySet<string> | undefined) => void
  readonly onHover: (id: string | undefined) => void
  readonly onSelect: (selected: Selected) => void
}

const NAMED_MOST = 6

/** Works, closures, outages, treatments: what happened to the water before and during the investigation. */
export function ChangesAside(props: ChangesProps): ReactNode {
  const { picked, onPick } = props
  const events = useDerived(eventsIn)
  const [amends, setAmends] = useState<Recorded>()
  const [withdrawing, setWithdrawing] = useState<Recorded>()
  const close = (): void => {
    setAmends(undefined)
    onPick(undefined)
  }
  const open = (event: Recorded | undefined): void => {
    setAmends(event)
    onPick(new Set(event?.body.components ?? []))
  }
  if (picked !== undefined)
    return (
      <EventForm
        key={amends?.id ?? 'new'}
        system={props.system}
        amends={amends}
        picked={picked}
        onPick={onPick}
        onClose={close}
      />
    )
  return (
    <>
      <PageHead
        title={events.length === 0 ? 'What changed lately?' : `${counted(events.length, 'change')} recorded`}
        name="What changed lately · Building"
        lead="Works, closures, outages, pressure loss, settings, treatment: anything in the months before the first onset. Flushing or disinfection is held against every later sample."
        actions={
          <Button kind="primary" onPress={() => open(undefined)}>
            Record a change
          </Button>
        }
      />
      <ul className="changes">
        {events.map((event) => (
          <EventLine
            key={event.id}
            event={event}
            {...props}
            onAmend={() => open(event)}
            onWithdraw={() => setWithdrawing(event)}
          />
        ))}
      </ul>
      {withdrawing !== undefined && (
        <WithdrawDialog
          id={withdrawing.id}
          words={`the ${withdrawing.body.what} of ${withdrawing.body.on}`}
          onClose={() => setWithdrawing(undefined)}
        />
      )}
    </>
  )
}

interface EventLineProps extends ChangesProps {
  readonly event: Recorded
  readonly onAmend: () => void
  readonly onWithdraw: () => void
}

function EventLine({ event, system, onSelect, onHover, onAmend, onWithdraw }: EventLineProps): ReactNode {
  const { on, until, what, components, text } = event.body
  const more = components.length - NAMED_MOST
  return (
    <li className="change">
      <h2>
        {capital(what)} <span className="quiet num">{until === undefined ? on : `${on} to ${until}`}</span>
      </h2>
      <p>{text}</p>
      <p className="change-places">
        {components.length === 0 && <span className="quiet">The whole building</span>}
        {components.slice(0, NAMED_MOST).map((id) => (
          <span key={id} onPointerEnter={() => onHover(id)} onPointerLeave={() => onHover(undefined)}>
            <Button kind="text" onPress={() => onSelect({ kind: 'part', id })}>
              {nameIn(system, id)}
            </Button>
          </span>
        ))}
        {more > 0 && <span className="quiet">and {more} more</span>}
      </p>
      <p className="change-acts">
        <Button kind="text" name={`Amend the ${what} of ${on}`} onPress={onAmend}>
          Amend
        </Button>
        <Button kind="text" name={`Withdraw the ${what} of ${on}`} onPress={onWithdraw}>
          Withdraw
        </Button>
      </p>
    </li>
  )
}
