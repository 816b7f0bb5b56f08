import type { Component, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { ComboBox } from '../kit/ComboBox.tsx'
import type { FieldProps } from '../kit/Field.tsx'
import { nameIn, partChoice } from './words.ts'

export interface PartChoiceProps extends FieldProps {
  readonly system: WaterSystem
  /** The id of the chosen part, or ''. */
  readonly value: string
  readonly onChange: (id: string) => void
  readonly among?: ((component: Component) => boolean) | undefined
}

/** One part of the building, found by typing its name. */
export function PartChoice({ system, value, onChange, among, ...field }: PartChoiceProps): ReactNode {
  const choices = useMemo(
    () => distinct(system.components.filter((one) => among?.(one) ?? true).map(partChoice)),
    [system, among],
  )
  const name = choices.find(({ id }) => id === value)?.label ?? (value === '' ? '' : nameIn(system, value))
  const [typed, setTyped] = useState<string>()
  const strange = typed !== undefined && typed !== '' && value === ''
  return (
    <ComboBox
      {...field}
      issue={field.issue ?? (strange ? 'Choose one from the list.' : undefined)}
      value={typed ?? name}
      onChange={(text) => {
        setTyped(text)
        onChange(choices.find(({ label }) => label === text)?.id ?? '')
      }}
      onChoose={(id) => {
        setTyped(undefined)
        onChange(id)
      }}
      choices={choices}
      placeholder="type a name"
      // Leaving the field keeps what stands in it, chosen or not.
      free
      nothing="Nothing by that name."
    />
  )
}

type Named = ReturnType<typeof partChoice>

/** Two parts of one name are told apart by their ids. */
function distinct(choices: readonly Named[]): Named[] {
  const times = new Map<string, number>()
  for (const { label } of choices) times.set(label, (times.get(label) ?? 0) + 1)
  return choices.map((one) => ((times.get(one.label) ?? 0) > 1 ? { ...one, label: `${one.label} (${one.id})` } : one))
}
