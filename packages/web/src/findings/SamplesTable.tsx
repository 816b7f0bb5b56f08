import { CONFIDENCE_WORDS } from '@rillmark/casebook/findings/confidence.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { countInterval } from '@rillmark/casebook/findings/count-interval.ts'
import type { RowResult, SampleRow } from '@rillmark/casebook/findings/sample-rows.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { type Shown, showConcentration, showTemperature } from '@rillmark/casebook/units/display.ts'
import { resultWords } from '@rillmark/casebook/units/result-words.ts'
import type { ReactNode } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { Mark } from '../kit/Mark.tsx'
import { usePreferences } from '../store/preferences.tsx'

const MARKS = { positive: 'full', negative: 'open', waiting: 'dashed', 'not interpretable': 'cross' } as const

interface SamplesTableProps {
  readonly rows: readonly SampleRow[]
  readonly onHover: (label: string | undefined) => void
  readonly onPlace: (component: string) => void
}

/** Samples with their result, its counting limits where known, the hot temperature, and what the sample cannot tell. */
export function SamplesTable({ rows, onHover, onPlace }: SamplesTableProps): ReactNode {
  const { units } = usePreferences()
  return (
    <DataTable
      caption={counted(rows.length, 'sample')}
      rows={rows}
      rowId={({ label }) => label}
      onHover={onHover}
      onSelect={(label) => {
        const place = rows.find((row) => row.label === label)?.component
        if (place !== undefined) onPlace(place)
      }}
      empty={<p className="quiet">No sample was taken here.</p>}
      maxHeight="26rem"
      columns={[
        {
          id: 'place',
          head: 'Place',
          width: '36%',
          cell: (row) => <PlaceCell row={row} />,
          sort: ({ place }) => place,
        },
        {
          id: 'result',
          head: 'Result',
          cell: (row) => <ResultCell row={row} units={units} />,
          sort: ({ outcome }) => outcome,
        },
        {
          id: 'hot',
          head: `Hot, ${units.temperature}`,
          numeric: true,
          cell: ({ temperatureC }) => (temperatureC === undefined ? '' : showTemperature(temperatureC, units).text),
          sort: ({ temperatureC }) => temperatureC,
        },
      ]}
    />
  )
}

function PlaceCell({ row }: { readonly row: SampleRow }): ReactNode {
  return (
    <span className="sample-place">
      <span>{row.place}</span>
      <span className="faint">
        {[row.kindWords, row.collectedOn, row.group].filter((part) => part !== undefined).join(', ')}
      </span>
      <span className="visually-hidden">{row.label}</span>
    </span>
  )
}

function ResultCell({ row, units }: { readonly row: SampleRow; readonly units: DisplayUnits }): ReactNode {
  const { sinceTreatment } = row
  return (
    <span className="sample-result">
      <span className={row.outcome === 'positive' ? 'tag tag-bad' : 'tag'}>
        <Mark shape={MARKS[row.outcome]} />
        <span>
          {row.results.length === 0 ? 'waiting' : row.results.map((result) => resultText(result, units)).join('; ')}
        </span>
      </span>
      {row.results.map((result) => (
        <Extra key={result.entry.id} result={result} units={units} />
      ))}
      {sinceTreatment !== undefined && (
        <span className="after-treatment">
          {counted(sinceTreatment.days, 'day')} after {sinceTreatment.treatment.what}
        </span>
      )}
      {row.afterFilter && <span className="after-treatment">taken through a filter</span>}
    </span>
  )
}

/** In the unit the person reads; of a count, culture goes without saying. */
function resultText({ entry }: RowResult, units: DisplayUnits): string {
  const { value, method } = entry.body
  return resultWords(value, { units, ...(value.kind === 'count' && method === 'culture' ? {} : { method }) })
}

function Extra({ result, units }: { readonly result: RowResult; readonly units: DisplayUnits }): ReactNode {
  const interval = countInterval(result.entry.body)
  const { species, serogroup, value } = result.entry.body
  const named = [species, serogroup === undefined ? undefined : `serogroup ${serogroup}`].filter(
    (part) => part !== undefined,
  )
  const band = result.judgement?.kind === 'band' ? result.judgement.band.label : undefined
  const limit = (bound: number): Shown =>
    showConcentration(
      { value: Number(bound.toPrecision(2)), unit: value.kind === 'count' ? value.unit : 'CFU/L' },
      units,
    )
  const limits =
    interval === undefined || value.kind !== 'count'
      ? undefined
      : `${CONFIDENCE_WORDS} from counting ${limit(interval.lower).text}–${limit(interval.upper).words}`
  const half = result.entry.body.halfLimitSuspected === true ? 'looks like half a detection limit' : undefined
  const part = result.part === undefined ? undefined : `on the part ${result.part.label}, for ${result.part.to.name}`
  const parts = [...named, limits, band, half, part].filter((part) => part !== undefined)
  return parts.length === 0 ? null : <span className="faint">{parts.join(' · ')}</span>
}
