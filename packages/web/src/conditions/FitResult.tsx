import type {
  Calibration,
  Finding,
  InputFit,
  NotFitted,
  ReadingFit,
} from '@rillmark/casebook/calibration/calibration.ts'
import {
  fittedWords,
  fitVerdict,
  rangedWords,
  readingPlace,
  readingUnit,
} from '@rillmark/casebook/calibration/fit-words.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import type { ReactNode } from 'react'
import { type Column, DataTable } from '../kit/DataTable.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { Note } from '../kit/Note.tsx'
import { Tag } from '../kit/Tag.tsx'
import { usePreferences } from '../store/preferences.tsx'

export interface FitResultProps {
  readonly system: WaterSystem
  readonly found: Calibration | NotFitted
  readonly onPlace: (id: string) => void
  readonly onHover: (id: string | undefined) => void
}

/** What a fit came to: the verdict, what is not as described, the inputs before and after, the readings. */
export function FitResult({ system, found, onPlace, onHover }: FitResultProps): ReactNode {
  const { units } = usePreferences()
  if (found.kind === 'not fitted') return <Note kind="warn">The prediction could not be fitted: {found.why}.</Note>
  const doubtful =
    found.findings.length > 0 || found.unexplained.length > 0 || found.inputs.some(({ strained }) => strained)
  const places = new Map(found.readings.map(({ reading }) => [reading.id, reading.component]))
  return (
    <div className="stack">
      <Note kind={doubtful ? 'warn' : 'plain'}>{fitVerdict(found)}</Note>
      {!found.settled && (
        <Note kind="warn">It had not settled when its runs were used up: take the ranges with care.</Note>
      )}
      {found.findings.map((finding, at) => (
        <FindingPart key={finding.id} finding={finding} named={at > 0} units={units} />
      ))}
      {found.findings.length > 0 && (
        <p className="quiet">
          Worked out from readings and description alone: go and look before anything is opened or shut. A return that
          was set going again can bring hot water to taps that ran cool; warn of scalding.
        </p>
      )}
      <Reasons found={found} />
      <DataTable
        caption={`What nobody knows for sure, with ${Math.round(found.level * 100)} % ranges`}
        rows={found.inputs}
        rowId={({ id }) => id}
        columns={inputColumns(units)}
        maxHeight="20rem"
      />
      <DataTable
        caption={`${counted(found.readings.length, 'reading')} beside the prediction`}
        rows={found.readings}
        rowId={({ reading }) => reading.id}
        columns={readingColumns(system, units)}
        initialSort={{ column: 'off', descending: true }}
        onSelect={(id) => onPlace(places.get(id) ?? '')}
        onHover={(id) => onHover(id === undefined ? undefined : places.get(id))}
        maxHeight="24rem"
      />
      {found.leftOut.length > 0 && (
        <p className="faint">
          {counted(found.leftOut.length, 'reading')} left out:{' '}
          {[...new Set(found.leftOut.map(({ why }) => why))].join('; ')}.
        </p>
      )}
    </div>
  )
}

interface FindingPartProps {
  readonly finding: Finding
  /** The first is named by the verdict. */
  readonly named: boolean
  readonly units: DisplayUnits
}

function FindingPart({ finding, named, units }: FindingPartProps): ReactNode {
  const { words, size, explains, orElse, score } = finding
  return (
    <div className="stack">
      {named && (
        <p>
          <b>{words}</b>
        </p>
      )}
      {size !== undefined && (
        <p>
          {size.words}: {rangedWords(size, { unit: size.unit, units })}
        </p>
      )}
      <p className="quiet">
        {explains.length === 0
          ? 'It takes the place of an input that had to go further than is likely'
          : `It explains ${counted(explains.length, 'reading')} that nothing else did`}
        ; score {score.toFixed(0)}, above 6 is strong.
      </p>
      {orElse.length > 0 && (
        <>
          <p>These explain the readings about as well:</p>
          <ul className="predicted-cautions">
            {orElse.map((other) => (
              <li key={other.id}>{other.words}</li>
            ))}
          </ul>
        </>
      )}
    </div>
  )
}

/** As many reasons as are worth reading. */
const MOST_SHOWN = 6

function Reasons({ found }: { readonly found: Calibration }): ReactNode {
  if (found.tried.length === 0) return null
  return (
    <Disclosure
      summary={`${counted(found.tried.length, 'reason')} tried${found.findings.length > 0 ? ' for what is left' : ''}, none that convinces`}
    >
      <ul className="predicted-cautions">
        {found.tried.slice(0, MOST_SHOWN).map(({ id, words, score }) => (
          <li key={id}>
            {words} Score {score.toFixed(0)}.
          </li>
        ))}
      </ul>
    </Disclosure>
  )
}

function inputColumns(units: DisplayUnits): readonly Column<InputFit>[] {
  return [
    {
      id: 'words',
      head: 'Input',
      cell: ({ words, strained }) => (
        <span className="ranked-place">
          <span>{words}</span>
          {strained && (
            <Tag shape="triangle" kind="warn">
              further than likely
            </Tag>
          )}
        </span>
      ),
    },
    { id: 'before', head: 'Believed', numeric: true, cell: ({ before, unit }) => rangedWords(before, { unit, units }) },
    {
      id: 'after',
      head: 'With the readings',
      numeric: true,
      cell: ({ after, unit }) => rangedWords(after, { unit, units }),
    },
    {
      id: 'left',
      head: 'Range left',
      numeric: true,
      sort: ({ sdRatio }) => sdRatio,
      cell: ({ sdRatio }) => `${Math.round(sdRatio * 100)} %`,
    },
  ]
}

function readingColumns(system: WaterSystem, units: DisplayUnits): readonly Column<ReadingFit>[] {
  const said = ({ reading }: ReadingFit, value: number): string =>
    fittedWords(value, { unit: readingUnit(reading), units })
  return [
    {
      id: 'place',
      head: 'Read',
      sort: ({ reading }) => readingPlace(system, reading),
      cell: ({ reading }) => readingPlace(system, reading),
    },
    {
      id: 'value',
      head: 'Measured',
      numeric: true,
      cell: (row) =>
        `${row.reading.beyond === undefined ? '' : `${row.reading.beyond} `}${said(row, row.reading.value)}`,
    },
    { id: 'before', head: 'As described', numeric: true, cell: (row) => said(row, row.before) },
    { id: 'after', head: 'Fitted', numeric: true, cell: (row) => said(row, row.after) },
    {
      id: 'off',
      head: 'Off by',
      numeric: true,
      sort: ({ standardised }) => Math.abs(standardised),
      cell: ({ standardised, unexplained }) =>
        unexplained ? (
          <Tag shape="triangle" kind="warn">
            not explained
          </Tag>
        ) : (
          `${Math.abs(standardised).toFixed(1)} sd`
        ),
    },
  ]
}
