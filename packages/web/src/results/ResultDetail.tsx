import { CONFIDENCE_LEVEL, CONFIDENCE_WORDS } from '@rillmark/casebook/findings/confidence.ts'
import { countInterval } from '@rillmark/casebook/findings/count-interval.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { showConcentration } from '@rillmark/casebook/units/display.ts'
import { localDate } from '@rillmark/casebook/units/local-time.ts'
import { resultWords } from '@rillmark/casebook/units/result-words.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import { type ReactNode, useState } from 'react'
import { CalculatorLink } from '../calculators/CalculatorLink.tsx'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { Section } from '../kit/Section.tsx'
import { WithdrawDialog } from '../entry/WithdrawDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { ResultDialog } from './ResultDialog.tsx'

/** One result: where it came from, every version it has had, and the ways to amend it. */
export function ResultDetail({ entry }: { readonly entry: EffectiveEntry<'result.reported'> }): ReactNode {
  const { state } = useInvestigation()
  const { units } = usePreferences()
  const [open, setOpen] = useState<'amend' | 'withdraw'>()
  const { body } = entry
  const versions = state.record.versions.get(entry.id)
  const source = state.results.imports.find(({ id }) => id === body.importedBy)
  const facts = [
    { key: 'Result', value: resultWords(body.value, { method: body.method, units }) },
    { key: 'Laboratory', value: body.laboratory },
    { key: 'Looked for', value: body.target },
    ...(body.volumeExaminedMl === undefined ? [] : [{ key: 'Volume examined', value: `${body.volumeExaminedMl} mL` }]),
    ...countFacts(body, units),
    ...(body.reportId === undefined ? [] : [{ key: 'Report', value: body.reportId }]),
    {
      key: 'From',
      value: source === undefined ? `typed by ${entry.author}` : `${source.body.fileName}, row ${body.row ?? ''}`,
    },
    ...(body.notes === undefined ? [] : [{ key: 'Notes', value: body.notes }]),
  ]
  return (
    <Section
      title={`Sample ${body.label}`}
      aside={entry.amendments === 0 ? 'as first reported' : `amended ${entry.amendments}×`}
    >
      {body.halfLimitSuspected === true && (
        <p className="quiet">
          The value looks like half of a detection limit. It stands as written and counts as below the limit.
        </p>
      )}
      <KeyValue facts={facts} />
      {versions !== undefined && versions.amendments.length > 0 && (
        <ol className="versions">
          {[versions.first, ...versions.amendments].map((version) => (
            <VersionLine key={version.id} version={version} />
          ))}
        </ol>
      )}
      {body.asWritten !== undefined && (
        <Disclosure summary="The row as the laboratory wrote it">
          <KeyValue
            facts={Object.entries(body.asWritten).map(([key, value]) => ({
              key,
              value: <span className="mono">{value}</span>,
            }))}
          />
        </Disclosure>
      )}
      <ButtonRow>
        <Button onPress={() => setOpen('amend')}>Amend this result</Button>
        <Button onPress={() => setOpen('withdraw')}>Withdraw it</Button>
      </ButtonRow>
      {open === 'amend' && <ResultDialog amends={entry} onClose={() => setOpen(undefined)} />}
      {open === 'withdraw' && (
        <WithdrawDialog id={entry.id} words={`the result of ${body.label}`} onClose={() => setOpen(undefined)} />
      )}
    </Section>
  )
}

/** How far counting alone can be off, where the volume the laboratory looked at is known. */
function countFacts(
  body: EffectiveEntry<'result.reported'>['body'],
  units: DisplayUnits,
): { key: string; value: ReactNode }[] {
  const limits = countInterval(body)
  if (limits === undefined || body.value.kind !== 'count') return []
  const plates = [{ colonies: limits.colonies, platedMl: body.volumeExaminedMl, concentrationFactor: 1 }]
  const { unit } = body.value
  const [lower, upper] = [limits.lower, limits.upper].map((bound) =>
    showConcentration({ value: roughly(bound), unit }, units),
  )
  return [
    {
      key: 'From counting alone',
      value: (
        <>
          {lower?.text} to {upper?.words} ({CONFIDENCE_WORDS}).{' '}
          <CalculatorLink id="plate-count" figures={{ plates, level: CONFIDENCE_LEVEL }}>
            Working
          </CalculatorLink>
        </>
      ),
    },
  ]
}

/** Two significant digits: limits of counting are no sharper. */
const roughly = (value: number): number => Number(value.toPrecision(2))

function VersionLine({ version }: { readonly version: Entry }): ReactNode {
  const { units } = usePreferences()
  if (version.kind !== 'result.reported') return null
  const why = version.corrects === undefined ? '' : `: ${version.corrects.reason}`
  return (
    <li>
      <span className="num">{localDate(version)}</span>{' '}
      {resultWords(version.body.value, { method: version.body.method, units })}
      <span className="faint">
        {' '}
        {version.author}
        {why}
      </span>
    </li>
  )
}
