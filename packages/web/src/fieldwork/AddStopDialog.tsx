import { SAMPLE_KIND_WORDS, type SampleKind } from '@rillmark/casebook/entry/fields.ts'
import type { Component } from '@rillmark/casebook/building/water-system.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { proceduresIn } from '@rillmark/casebook/plan/procedures-in-use.ts'
import { proceduresFor } from '@rillmark/casebook/procedures/procedures.ts'
import type { Procedure } from '@rillmark/casebook/procedures/procedure.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { ComboBox } from '../kit/ComboBox.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { useDraft } from './use-draft.ts'
import { newStopId } from './new-stop-id.ts'
import { NotKept, useWriting } from './stop-tools.tsx'
import { isTicked, Ticks } from './Ticks.tsx'

type Stop = BodyOf<'stop.added'>['stop']

const nameOf = ({ label, room, kind, id }: Component): string =>
  [
    label ?? [room === undefined ? undefined : `Room ${room},`, kind.replaceAll('-', ' ')].filter(Boolean).join(' '),
    `(${id})`,
  ].join(' ')

/** A stop nobody planned, added where one stands: the place, what to take, and why. */
export function AddStopDialog(props: { readonly round: string; readonly onClose: (stop?: string) => void }): ReactNode {
  const { id: investigation, state } = useInvestigation()
  const writing = useWriting()
  const draft = useDraft(`${investigation}/${props.round}/added stop`)
  const [place, reason] = [draft.get('place'), draft.get('reason')]
  const setReason = (next: string): void => draft.set({ reason: next })
  const unticked = { draft, field: 'without' }
  const components = state.building.system?.components ?? []
  const component = components.find((one) => nameOf(one) === place)
  const among = proceduresIn(state)
  const procedures = component === undefined ? among : proceduresFor(component.kind, { among })
  const procedure = procedures.find(({ id }) => id === draft.get('procedure')) ?? procedures[0]
  const kinds = (procedure?.sampleKinds ?? []).filter((kind) => isTicked(kind, unticked))
  const add = async (): Promise<void> => {
    if (procedure === undefined) return
    const id = newStopId()
    const stop = stopFrom({ id, place, component, procedure, kinds, reason })
    if (!(await writing.write('stop.added', { round: props.round, stop, reason }))) return
    draft.clear()
    props.onClose(id)
  }
  return (
    <Dialog
      title="Add a stop"
      open
      onClose={() => props.onClose()}
      actions={
        <>
          <Button onPress={() => props.onClose()}>Leave it</Button>
          <Button
            kind="primary"
            busy={writing.busy}
            disabled={place.trim() === '' || reason.trim() === '' || kinds.length === 0}
            onPress={() => void add()}
          >
            Add the stop
          </Button>
        </>
      }
    >
      <div className="form">
        <ComboBox
          label="Place"
          width="full"
          hint="A place of the described building, or your own words"
          free
          value={place}
          onChange={(next) => draft.set({ place: next })}
          choices={placesOf(components)}
        />
        <Select
          label="How it is done"
          value={procedure?.id ?? ''}
          onChange={(next) => draft.set({ procedure: next })}
          choices={procedures.map(({ id, title }) => ({ id, label: title }))}
        />
        <Ticks
          {...unticked}
          choices={(procedure?.sampleKinds ?? []).map((id) => ({ id, label: SAMPLE_KIND_WORDS[id] }))}
        />
        <TextField label="Why here" required width="full" value={reason} onChange={setReason} />
        <NotKept issues={writing.issues} />
      </div>
    </Dialog>
  )
}

const placesOf = (components: readonly Component[]): { id: string; label: string }[] =>
  components.filter(({ kind }) => kind !== 'junction').map((one) => ({ id: one.id, label: nameOf(one) }))

function stopFrom(of: {
  id: string
  place: string
  component: Component | undefined
  procedure: Procedure
  kinds: readonly SampleKind[]
  reason: string
}): Stop {
  const { id, place, component, procedure, kinds, reason } = of
  const circuit = procedure.circuits[0]
  const { floor, riser, room, zone } = component ?? {}
  return {
    id,
    title: (component === undefined ? place : place.slice(0, place.lastIndexOf(' ('))).slice(0, 160),
    samples: kinds.map((sampleKind) => ({
      sampleKind,
      procedure: procedure.id,
      ...(circuit === undefined ? {} : { circuit }),
    })),
    reasons: [{ obligation: 'asked for', text: reason, evidence: [] }],
    rank: 1,
    minutes: (procedure.minutes.value.min + procedure.minutes.value.max) / 2,
    ...(component === undefined ? {} : { component: component.id }),
    ...(floor === undefined ? {} : { floor }),
    ...(riser === undefined ? {} : { riser }),
    ...(room === undefined ? {} : { room }),
    ...(zone === undefined ? {} : { zone }),
  }
}
