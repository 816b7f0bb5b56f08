import type { Pipe } from '@rillmark/casebook/building/water-system.ts'
import { otherEnd } from '@rillmark/casebook/building/graph.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useMemo } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { show } from '@rillmark/casebook/units/display.ts'
import { usePreferences } from '../store/preferences.tsx'
import type { PartDetailProps } from './PartDetail.tsx'
import { circuitWord, nameIn } from './words.ts'

/** The pipes that meet in a part, each the way to its own facts. */
export function PartPipes({ system, id, onSelect, onHover }: PartDetailProps): ReactNode {
  const { units } = usePreferences()
  const pipes = useMemo(() => system.pipes.filter((pipe) => pipe.from === id || pipe.to === id), [system, id])
  const other = (pipe: Pipe): string => otherEnd(pipe, id)
  return (
    <DataTable
      caption={`${counted(pipes.length, 'pipe')} to it`}
      rows={pipes}
      rowId={(pipe) => pipe.id}
      onSelect={(pipe) => onSelect({ kind: 'pipes', ids: [pipe] })}
      onHover={(pipe) => onHover(pipes.filter((one) => one.id === pipe).map(other)[0])}
      empty={<p className="quiet">No pipe comes to it yet, so no water does.</p>}
      columns={[
        { id: 'circuit', head: 'Water', cell: (pipe) => circuitWord(pipe.circuit) },
        { id: 'other', head: 'To or from', cell: (pipe) => nameIn(system, other(pipe)) },
        { id: 'length', head: 'Length', numeric: true, cell: (pipe) => `${pipe.lengthM} m` },
        {
          id: 'bore',
          head: 'Bore',
          numeric: true,
          cell: (pipe) =>
            pipe.boreMm === undefined ? (pipe.size ?? '') : show(pipe.boreMm, { unit: 'mm', units }).words,
        },
      ]}
    />
  )
}
