import { addPart, circuitsFor, suggestedFeeds } from '@rillmark/casebook/building/add-part.ts'
import { kindWord } from '@rillmark/casebook/building/labels.ts'
import type {
  Circuit,
  Component,
  ComponentKind,
  KnownBy,
  WaterSystem,
} from '@rillmark/casebook/building/water-system.ts'
import { COMPONENT_KINDS, isOutlet } from '@rillmark/casebook/building/water-system.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ComboBox } from '../kit/ComboBox.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { readTypedNumber } from '../kit/typed-number.ts'
import { KnownChoice } from './KnownTag.tsx'
import { PartChoice } from './PartChoice.tsx'
import { useEdit } from './use-edit.ts'
import { circuitWord } from './words.ts'

/** Outlets first: that is what people add. */
const KINDS = [...COMPONENT_KINDS].sort((a, b) => Number(isOutlet({ kind: b })) - Number(isOutlet({ kind: a })))
const KIND_CHOICES = KINDS.map((id) => ({ id, label: kindWord(id) }))

export interface AddPartProps {
  readonly system: WaterSystem
  /** Its floor and riser are proposed. */
  readonly beside?: Component | undefined
  readonly kind?: ComponentKind | undefined
  readonly onClose: () => void
  readonly onAdded: (id: string) => void
}

interface PartDraft {
  readonly kind: ComponentKind | ''
  readonly floor: string
  readonly riser: string
  readonly room: string
  readonly label: string
  readonly known: KnownBy | ''
  /** Where the person chose to join it, over what the place suggests. */
  readonly feeds: Partial<Record<Circuit, string>>
}

/** Adds a part on a floor and riser and joins it to the pipes there. */
export function AddPartDialog({ system, beside, kind, onClose, onAdded }: AddPartProps): ReactNode {
  const edit = useEdit()
  const [draft, setDraft] = useState<PartDraft>({
    kind: kind ?? '',
    floor: beside?.floor === undefined ? '' : String(beside.floor),
    riser: beside?.riser ?? '',
    room: '',
    label: '',
    known: '',
    feeds: {},
  })
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const set = (change: Partial<PartDraft>): void => setDraft({ ...draft, ...change })
  const floor = numberOf(draft.floor)
  const feeds = useFeeds(system, { draft, floor })

  const add = async (): Promise<void> => {
    const found = missing(draft)
    if (draft.kind === '' || draft.known === '' || found.length > 0) return setIssues(found)
    const words = { riser: said(draft.riser), room: said(draft.room), label: said(draft.label) }
    const { id, changes } = addPart(system, { kind: draft.kind, floor, ...words, known: draft.known, feeds })
    const refused = await edit({ changes, said: `Added: ${kindWord(draft.kind)}.` })
    if (refused.length > 0) return setIssues(refused)
    onClose()
    onAdded(id)
  }

  return (
    <Dialog
      title="Add a part"
      open
      onClose={onClose}
      mustAnswer
      actions={
        <>
          <Button kind="primary" onPress={() => void add()}>
            Add it
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={issues} title="Still to say" />
        <WhatAndWhere system={system} draft={draft} set={set} />
        <Joints system={system} draft={draft} feeds={feeds} set={set} />
        <KnownChoice label="How do you know of it?" value={draft.known} onChange={(known) => set({ known })} />
      </div>
    </Dialog>
  )
}

interface PartProps {
  readonly system: WaterSystem
  readonly draft: PartDraft
  readonly set: (change: Partial<PartDraft>) => void
}

function WhatAndWhere({ system, draft, set }: PartProps): ReactNode {
  const risers = useMemo(() => [...new Set(system.components.flatMap(({ riser }) => riser ?? []))].sort(), [system])
  return (
    <>
      <FormRow>
        <Select
          label="Kind"
          value={draft.kind}
          onChange={(kind) => set({ kind, feeds: {} })}
          choices={KIND_CHOICES}
          required
          width="narrow"
        />
        <TextField
          label="Name, if it has one"
          value={draft.label}
          onChange={(label) => set({ label })}
          width="narrow"
        />
      </FormRow>
      <FormRow>
        <NumberField label="Floor" value={draft.floor} onChange={(floor) => set({ floor, feeds: {} })} whole />
        <ComboBox
          label="Riser"
          value={draft.riser}
          onChange={(riser) => set({ riser, feeds: {} })}
          choices={risers.map((id) => ({ id, label: id }))}
          free
          width="narrow"
        />
        <TextField label="Room" value={draft.room} onChange={(room) => set({ room })} width="narrow" />
      </FormRow>
    </>
  )
}

function Joints({ system, draft, set, feeds }: PartProps & Pick<PartDraft, 'feeds'>): ReactNode {
  if (draft.kind === '') return null
  const circuits = new Set<Circuit>([...circuitsFor(draft.kind), ...(Object.keys(feeds) as Circuit[])])
  if (feeds.tempered !== undefined && feeds.hot === undefined) circuits.delete('hot')
  const none = Object.keys(feeds).length === 0
  return (
    <fieldset className="joints">
      <legend>Joined to</legend>
      <p className="field-hint">
        {none
          ? 'Say floor and riser and the nearest pipes are proposed, or choose them here. Without a pipe no water comes to it.'
          : 'Proposed from floor and riser. Length, size and use are assumed and marked guessed.'}
      </p>
      {[...circuits].map((circuit) => (
        <PartChoice
          key={circuit}
          label={circuitWord(circuit)}
          system={system}
          value={feeds[circuit] ?? ''}
          onChange={(id) => set({ feeds: { ...draft.feeds, [circuit]: id } })}
          among={notAnOutlet}
          width="full"
        />
      ))}
    </fieldset>
  )
}

const notAnOutlet = (component: Component): boolean => !isOutlet(component)

function useFeeds(
  system: WaterSystem,
  { draft, floor }: { draft: PartDraft; floor: number | undefined },
): Partial<Record<Circuit, string>> {
  const { kind, riser, feeds } = draft
  return useMemo(() => {
    if (kind === '') return feeds
    const proposed = suggestedFeeds(system, { kind, floor, riser: said(riser) })
    return Object.fromEntries(Object.entries({ ...proposed, ...feeds }).filter(([, id]) => id !== ''))
  }, [system, kind, floor, riser, feeds])
}

function missing({ kind, floor, known }: PartDraft): Issue[] {
  return [
    ...(kind === '' ? [issue('kind', { expected: 'what it is', received: undefined })] : []),
    ...(floor !== '' && numberOf(floor) === undefined
      ? [issue('floor', { expected: 'a whole number', received: floor })]
      : []),
    ...(known === '' ? [issue('how you know of it', { expected: 'one of the four', received: undefined })] : []),
  ]
}

const said = (text: string): string | undefined => (text.trim() === '' ? undefined : text.trim())

function numberOf(text: string): number | undefined {
  const read = readTypedNumber(text)
  return read.kind === 'number' && Number.isInteger(read.value) ? read.value : undefined
}
