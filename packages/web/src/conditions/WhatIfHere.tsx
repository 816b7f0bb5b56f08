import { showPredicted } from '@rillmark/casebook/conditions/shown-quantity.ts'
import type { PlaceDifference } from '@rillmark/casebook/conditions/compare-conditions.ts'
import { capital } from '@rillmark/casebook/units/capital.ts'
import type { ReactNode } from 'react'
import { type Column, DataTable } from '../kit/DataTable.tsx'
import { Section } from '../kit/Section.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { COMPARED, type Compared, type ComparedBy, comparedLabel } from './compared.ts'
import type { ChangedDay } from './use-what-if.ts'

interface Row {
  readonly by: ComparedBy
  readonly place: PlaceDifference
}

/** One place before and after the changes that were tried. */
export function WhatIfHere({ changed, id }: { readonly changed: ChangedDay; readonly id: string }): ReactNode {
  const { units } = usePreferences()
  const places = changed.comparison.places.filter((one) => one.id === id)
  if (places.length === 0) return null
  const rows = places.flatMap((place) =>
    (Object.keys(COMPARED) as ComparedBy[])
      .filter((by) => (COMPARED[by] as Compared).sides.includes(place.water))
      .map((by): Row => ({ by, place })),
  )
  const cell = ({ by }: Row, place: PlaceDifference['before']): string => {
    const { of, quantity }: Compared = COMPARED[by]
    return place === undefined ? 'none' : showPredicted(of(place), { quantity, units }).text
  }
  const columns: readonly Column<Row>[] = [
    {
      id: 'what',
      head: 'Water',
      cell: ({ by, place }) => `${capital(place.water)}: ${uncapital(comparedLabel(by, units))}`,
    },
    { id: 'before', head: 'As it is', numeric: true, cell: (row) => cell(row, row.place.before) },
    {
      id: 'after',
      head: 'Changed',
      numeric: true,
      cell: (row) => {
        const [was, is] = [cell(row, row.place.before), cell(row, row.place.after)]
        return was === is ? <span className="quiet">{is}</span> : <b>{is}</b>
      },
    },
  ]
  return (
    <Section title="With the changes tried">
      <DataTable
        caption="Before and after"
        captionHidden
        rows={rows}
        rowId={({ by, place }) => `${place.water} ${by}`}
        columns={columns}
      />
    </Section>
  )
}

const uncapital = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1)
