import type { FieldReading } from '@rillmark/casebook/calibration/field-reading.ts'
import { readingsOf } from '@rillmark/casebook/calibration/readings-of.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { type ReactNode, useMemo } from 'react'
import { Button } from '../kit/Button.tsx'
import { Note } from '../kit/Note.tsx'
import { Progress } from '../kit/Progress.tsx'
import { Section } from '../kit/Section.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { FitResult } from './FitResult.tsx'
import type { ShownPrediction } from './use-prediction.ts'
import { useWorkerRun } from './use-worker-run.ts'

export interface FitPartProps {
  readonly system: WaterSystem
  readonly shown: ShownPrediction
  readonly onPlace: (id: string) => void
  readonly onHover: (id: string | undefined) => void
}

/** The prediction fitted to what was read: which guesses the readings decide, and what is not as described. */
export function FitPart({ system, shown, onPlace, onHover }: FitPartProps): ReactNode {
  const { state: record, version } = useInvestigation()
  const { run, state } = useWorkerRun('fit')
  const readings = useMemo(
    () => readingsOf(record),
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
    [version],
  )
  const { seed } = shown.conditions
  const start = (): void => run.start({ kind: 'fit', system, seed, readings, systemEntry: '' })
  const found = state.kind === 'done' && state.job.system === system ? state.answer : undefined
  const older = found !== undefined && state.kind === 'done' && !sameReadings(state.job.readings, readings)
  return (
    <Section title="Fit to readings" aside={counted(readings.length, 'reading')}>
      {readings.length === 0 ? (
        <p className="quiet">
          Nothing was read yet. Temperatures and residuals of Fieldwork can be held against the prediction here.
        </p>
      ) : (
        <>
          <p className="quiet">
            Sets what nobody knows for sure (air, losses, flows of returns, set points, decay) so that the prediction
            agrees with what was read, and looks for what is not as described.
          </p>
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
          {older && <Note kind="warn">Readings were added or changed since this fit.</Note>}
          {found !== undefined && <FitResult {...{ system, found, onPlace, onHover }} />}
        </>
      )}
    </Section>
  )
}

type Readings = readonly FieldReading[]

const sameReadings = (one: Readings, other: Readings): boolean =>
  one.length === other.length && one.every(({ id, value }, at) => other[at]?.id === id && other[at]?.value === value)
