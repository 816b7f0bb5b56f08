import { kindWord } from '@rillmark/casebook/building/labels.ts'
import { DEVICE_KINDS, OUTLET_KINDS } from '@rillmark/casebook/building/water-system.ts'
import type { ReactNode } from 'react'
import { NumberField } from '../kit/NumberField.tsx'
import { Select } from '../kit/Select.tsx'
import type { CountsDraft } from './quick-draft.ts'
import { capital } from './words.ts'

const KINDS = [...OUTLET_KINDS, ...DEVICE_KINDS]
const USUAL: readonly string[] = ['shower', 'basin-tap', 'kitchen-tap', 'bath']

/** How many of each kind: the usual kinds in view, any other one added when asked for. */
export function OutletCounts(props: {
  readonly counts: CountsDraft
  readonly onChange: (counts: CountsDraft) => void
  readonly usual?: readonly string[] | undefined
}): ReactNode {
  const { counts, onChange, usual = USUAL } = props
  const shown = KINDS.filter((kind) => usual.includes(kind) || counts[kind] !== undefined)
  const more = KINDS.filter((kind) => !shown.includes(kind))
  return (
    <div className="counts">
      {shown.map((kind) => (
        <NumberField
          key={kind}
          label={capital(kindWord(kind))}
          value={counts[kind] ?? ''}
          onChange={(typed) => onChange({ ...counts, [kind]: typed })}
          whole
          min={0}
          max={500}
        />
      ))}
      <Select
        label="Another kind"
        value=""
        placeholder="add a kind"
        onChange={(kind) => onChange({ ...counts, [kind]: '1' })}
        choices={more.map((kind) => ({ id: kind, label: kindWord(kind) }))}
        width="narrow"
      />
    </div>
  )
}
