import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { WhatIfChange } from '@rillmark/casebook/conditions/what-if.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { QuantityField } from '../form/QuantityField.tsx'
import { Button } from '../kit/Button.tsx'
import { ComboBox } from '../kit/ComboBox.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { CHANGE_CHOICES, changeOf, EMPTY_DRAFT, partChoices, type WhatIfDraft } from './what-if-draft.ts'

const PART_LABELS: Readonly<Record<WhatIfChange['change'], string>> = {
  'set-point': 'Heater or valve',
  'loop-flow': 'Return',
  insulation: 'Pipes',
  use: 'Outlet',
  'remove-dead-leg': 'Dead leg',
}

const USES = [
  { id: 'flushed daily', label: 'Flushed daily' },
  { id: 'used', label: 'Used' },
  { id: 'unused', label: 'Not used' },
] as const

/** One change to try: its kind, the part, the figure. */
export function WhatIfForm({
  system,
  onAdd,
}: {
  readonly system: WaterSystem
  readonly onAdd: (change: WhatIfChange) => void
}): ReactNode {
  const [draft, setDraft] = useState<WhatIfDraft>(EMPTY_DRAFT)
  const [typed, setTyped] = useState('')
  const parts = useMemo(() => partChoices(system, draft.change), [system, draft.change])
  const set = (change: Partial<WhatIfDraft>): void => setDraft((now) => ({ ...now, ...change }))
  const change = changeOf(draft)
  const label = PART_LABELS[draft.change]
  const add = (): void => {
    if (change === undefined) return
    onAdd(change)
    set({ part: '', figure: '' })
    setTyped('')
  }
  return (
    <div className="form">
      <Select
        label="Change"
        width="full"
        value={draft.change}
        choices={CHANGE_CHOICES}
        onChange={(next) => {
          set({ change: next, part: '', figure: '' })
          setTyped('')
        }}
      />
      {parts.length === 0 ? (
        <p className="quiet">Nothing of this kind is described.</p>
      ) : (
        <FormRow>
          {draft.change === 'use' ? (
            <ComboBox
              label={label}
              value={typed}
              choices={parts}
              // a name typed in full is as good as one taken from the list
              free
              nothing="No outlet is called so."
              onChange={(text) => {
                setTyped(text)
                set({ part: parts.find((one) => one.label === text)?.id ?? '' })
              }}
              onChoose={(part) => set({ part })}
            />
          ) : (
            <Select
              label={label}
              value={draft.part}
              choices={parts}
              placeholder="choose"
              onChange={(part) => set({ part })}
            />
          )}
          <Figure draft={draft} set={set} />
        </FormRow>
      )}
      {draft.change === 'use' && <UseFields draft={draft} set={set} />}
      <div>
        <Button disabled={change === undefined} onPress={add}>
          Add to the changes
        </Button>
      </div>
    </div>
  )
}

interface Drafting {
  readonly draft: WhatIfDraft
  readonly set: (change: Partial<WhatIfDraft>) => void
}

function Figure({ draft, set }: Drafting): ReactNode {
  const common = { value: draft.figure, onChange: (figure: string) => set({ figure }) }
  switch (draft.change) {
    case 'set-point':
      return <QuantityField label="Set point" unit="°C" min={0} max={95} {...common} />
    case 'loop-flow':
      return <QuantityField label="Flow" unit="L/min" min={0} hint="0 stops it." {...common} />
    case 'insulation':
      return <QuantityField label="Thickness" unit="mm" min={0} hint="0 for none." {...common} />
    case 'use':
    case 'remove-dead-leg':
      return null
  }
}

function UseFields({ draft, set }: Drafting): ReactNode {
  return (
    <>
      <RadioRow
        label="From now on"
        value={draft.use}
        choices={USES}
        hint={draft.use === 'flushed daily' ? 'For an outlet that is used less than once a day.' : undefined}
        onChange={(use) => set({ use })}
      />
      {draft.use === 'used' && (
        <NumberField label="Times a day" min={0} value={draft.figure} onChange={(figure) => set({ figure })} />
      )}
      {draft.use === 'flushed daily' && (
        <FormRow>
          <TextField label="At" width="narrow" value={draft.at} onChange={(at) => set({ at })} hint="Such as 07:00." />
          <NumberField label="For" unit="min" value={draft.minutes} onChange={(minutes) => set({ minutes })} />
          <QuantityField label="Flow" unit="L/min" value={draft.flow} onChange={(flow) => set({ flow })} />
        </FormRow>
      )}
    </>
  )
}
