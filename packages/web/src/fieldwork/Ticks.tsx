import type { ReactNode } from 'react'
import { CheckboxField } from '../kit/CheckboxField.tsx'
import type { DraftHandle } from './drafts.ts'

/** Where a draft keeps which of several things were unticked; all are ticked to begin with. */
export interface Unticked {
  readonly draft: DraftHandle
  readonly field: string
}

export function isTicked(id: string, { draft, field }: Unticked): boolean {
  return !draft.get(field).split(' ').includes(id)
}

/** Several things to tick, kept in the draft as they are changed. */
export function Ticks(props: Unticked & { readonly choices: readonly { id: string; label: string }[] }): ReactNode {
  const { choices, draft, field } = props
  const change = (id: string, on: boolean): void => {
    const others = choices.filter((one) => one.id !== id && !isTicked(one.id, props)).map((one) => one.id)
    draft.set({ [field]: (on ? others : [...others, id]).join(' ') })
  }
  return choices.map(({ id, label }) => (
    <CheckboxField key={id} label={label} checked={isTicked(id, props)} onChange={(on) => change(id, on)} />
  ))
}
