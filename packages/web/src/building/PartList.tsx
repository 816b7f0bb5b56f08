import { componentName } from '@rillmark/casebook/building/labels.ts'
import type { Component, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { weakestKnown } from '@rillmark/casebook/building/weakest-known.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { memo, type ReactNode, useDeferredValue, useMemo } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import type { OverviewProps } from './Overview.tsx'
import { KnownTag } from './KnownTag.tsx'
import { partsFor, WHICH_CHOICES } from './part-filter.ts'
import { placeWords } from './words.ts'

/** Every part by name and place, narrowed by typing; the list follows the typing at its own pace. */
export function PartList({ system, filter, onFilter, lit, onHover, onSelect }: OverviewProps): ReactNode {
  const asked = useDeferredValue(filter)
  const parts = useMemo(() => partsFor(system, asked), [system, asked])
  return (
    <>
      <FormRow>
        <TextField
          label="Find a part"
          value={filter.text}
          onChange={(text) => onFilter({ ...filter, text })}
          placeholder="605, shower, riser c …"
          inputMode="search"
          width="narrow"
        />
        <Select
          label="Among"
          value={filter.which}
          onChange={(which) => onFilter({ ...filter, which })}
          choices={WHICH_CHOICES}
          width="narrow"
        />
      </FormRow>
      <Parts system={system} parts={parts} lit={lit} onHover={onHover} onSelect={onSelect} />
    </>
  )
}

interface PartsProps extends Pick<OverviewProps, 'system' | 'lit' | 'onHover' | 'onSelect'> {
  readonly parts: readonly Component[]
}

const Parts = memo(function Parts({ system, parts, lit, onHover, onSelect }: PartsProps): ReactNode {
  const rows = useMemo(() => new Set(lit === undefined ? [] : [lit]), [lit])
  return (
    <DataTable
      caption={counted(parts.length, 'part')}
      rows={parts}
      rowId={({ id }) => id}
      onSelect={(id) => onSelect({ kind: 'part', id })}
      onHover={onHover}
      lit={rows}
      empty={<p className="quiet">No part by those words. Take a word away, or look among all.</p>}
      columns={[
        { id: 'name', head: 'Part', cell: componentName, sort: componentName },
        { id: 'place', head: 'Place', cell: (one) => shortPlace(one, system), sort: (one) => placeWords(one) },
        {
          id: 'known',
          head: 'Least sure fact',
          cell: (one) => <KnownTag known={weakestKnown(one)} />,
          sort: (one) => weakestKnown(one) ?? 'not said',
        },
      ]}
    />
  )
})

const shortPlace = ({ id, kind, floor, riser }: Component, system: WaterSystem): string =>
  placeWords({ id, kind, floor, riser }, system)
