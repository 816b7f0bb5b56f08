import { componentName } from '@rillmark/casebook/building/labels.ts'
import { namedParts } from '@rillmark/casebook/building/named-parts.ts'
import { canJoin, removalOf } from '@rillmark/casebook/building/remove-part.ts'
import type { Component, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { CheckboxField } from '../kit/CheckboxField.tsx'
import { Note } from '../kit/Note.tsx'
import { useDerived } from '../store/investigation.tsx'
import { ConfirmRemoval } from './ConfirmRemoval.tsx'

/** Takes a part out with its pipes, or lets one pipe take its place. */
export function RemoveDialog(props: {
  readonly system: WaterSystem
  readonly part: Component
  readonly onClose: () => void
  readonly onRemoved: () => void
}): ReactNode {
  const { system, part } = props
  const joinable = useMemo(() => canJoin(system, part.id), [system, part.id])
  const [join, setJoin] = useState(joinable)
  const removal = useMemo(() => removalOf(system, { id: part.id, join }), [system, part.id, join])
  const namedBy = useDerived(namedParts).get(part.id) ?? []
  const name = componentName(part)
  return (
    <ConfirmRemoval
      title={`Take ${name} out?`}
      words={name}
      removal={removal}
      onClose={props.onClose}
      onRemoved={props.onRemoved}
    >
      {joinable && (
        <CheckboxField label="Join the two pipes that meet in it into one" checked={join} onChange={setJoin} />
      )}
      {namedBy.length > 0 && (
        <Note kind="warn">
          Other entries name it: {[...new Set(namedBy.map(({ title }) => title.toLowerCase()))].join(', ')}. Amend those
          first; until then it stays. If it is no longer used, say so in its facts instead.
        </Note>
      )}
    </ConfirmRemoval>
  )
}
