import { counted } from '@rillmark/casebook/units/counted.ts'
import type { SharedPlace } from '@rillmark/casebook/cases/shared-places.ts'
import type { ReactNode } from 'react'
import { DataTable } from '../kit/DataTable.tsx'

/** Places by how much of the cases' incubation they cover. */
export function SharedPlaces(props: {
  readonly places: readonly SharedPlace[]
  readonly cases: number
  readonly lit: string | undefined
  readonly onLight: (place: string | undefined) => void
}): ReactNode {
  const { places, cases, lit, onLight } = props
  return (
    <DataTable
      caption={`${counted(places.length, 'place')} named by ${counted(cases, 'case')}`}
      rows={places}
      rowId={({ place }) => place}
      lit={new Set(lit === undefined ? [] : [lit])}
      onHover={onLight}
      columns={[
        { id: 'place', head: 'Place', cell: ({ place }) => place, sort: ({ place }) => place },
        {
          id: 'cases',
          head: 'In window of',
          numeric: true,
          cell: ({ inWindow }) => `${inWindow} of ${cases}`,
          sort: ({ inWindow }) => inWindow,
        },
        {
          id: 'weight',
          head: 'Incubation covered',
          numeric: true,
          cell: ({ weight }) => weight.toFixed(2),
          sort: ({ weight }) => weight,
        },
        {
          id: 'who',
          head: 'Cases, days in window',
          cell: ({ cases: who }) =>
            who
              .map(({ code, days, weight }) => (weight === undefined ? `${code} (no onset)` : `${code} ${days} d`))
              .join(' · '),
        },
      ]}
      empty={<p className="quiet">No places yet.</p>}
    />
  )
}
