import type { FieldReading } from '@rillmark/casebook/calibration/field-reading.ts'
import { readingsOf } from '@rillmark/casebook/calibration/readings-of.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Note } from '../kit/Note.tsx'
import { Progress } from '../kit/Progress.tsx'
import { Section } from '../kit/Section.tsx'
import { Select } from '../kit/Select.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { AcceptFit } from './AcceptFit.tsx'
import { FitResult } from './FitResult.tsx'
import { FitTaken } from './FitTaken.tsx'
import type { ShownPrediction } from './use-prediction.ts'
import { useWorkerRun } from './use-worker-run.ts'

export interface FitPartProps {
  readonly system: WaterSystem
  readonly shown: ShownPrediction
  readonly onPlace: (id: string) => void
  readonly onHover: (id: string | undefined) => void
}

/** The prediction fitted to what one round read: which guesses the readings decide, and what is not as described. */
export function FitPart({ system, shown, onPlace, onHover }: FitPartProps): ReactNode {
  const { state: record, version } = useInvestigation()
  const { run, state } = useWorkerRun('fit')
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  const rounds = useMemo(() => roundsRead(record), [version])
  const [wanted, setRound] = useState<string>()
  const round = rounds.find(({ code }) => code === wanted) ?? rounds.at(-1)
  if (round === undefined)
    return (
      <Section title="Fit to readings">
        <p className="quiet">
          Nothing was read yet. Temperatures and residuals of Fieldwork can be held against the prediction here.
        </p>
      </Section>
    )
  const { readings } = round
  const { seed } = shown.conditions
  const { code } = round
  const start = (): void => run.start({ kind: 'fit', system, seed, readings })
  const same = state.kind === 'done' && state.job.system === system && sameReadings(state.job.readings, readings)
  const found = same ? state.answer : undefined
  return (
    <Section title="Fit to readings" aside={counted(readings.length, 'reading')}>
      <p className="quiet">
        Sets what nobody knows for sure (air, losses, flows of returns, set points, decay) so that the prediction agrees
        with what was read, and looks for what is not as described.
      </p>
      {rounds.length > 1 && (
        <Select
          label="Readings of"
          value={round.code}
          onChange={setRound}
          choices={rounds.map(({ code }) => ({ id: code, label: `Round ${code}` }))}
        />
      )}
      {state.kind === 'running' ? (
        <Progress
          label="Fitting to the readings"
          detail="runs the simulation many times"
          fraction={state.fraction}
          onCancel={() => run.stop()}
        />
      ) : (
        <div>
          <Button onPress={start}>{found === undefined ? 'Fit to the readings' : 'Fit again'}</Button>
        </div>
      )}
      {state.kind === 'stopped' && (
        <Note kind={state.failed === undefined ? 'plain' : 'bad'}>
          {state.failed === undefined ? 'Stopped before it was done.' : `It could not be fitted: ${state.failed}`}
        </Note>
      )}
      {found !== undefined && <FitResult {...{ system, found, onPlace, onHover }} />}
      {found?.kind === 'fitted' && <AcceptFit found={found} round={code} seed={seed} />}
      <FitTaken />
    </Section>
  )
}

interface RoundRead {
  readonly code: string
  readonly readings: Readings
}

/** Rounds with readings, in the order of the record. A building changes from one to the next, so they are not fitted together. */
function roundsRead(record: InvestigationState): RoundRead[] {
  const codes = [...new Set(record.fieldwork.readings.map(({ body }) => body.round))]
  return codes
    .map((code) => ({ code, readings: readingsOf(record, new Set([code])) }))
    .filter(({ readings }) => readings.length > 0)
}

type Readings = readonly FieldReading[]

const sameReadings = (one: Readings, other: Readings): boolean =>
  one.length === other.length && one.every(({ id, value }, at) => other[at]?.id === id && other[at]?.value === value)
