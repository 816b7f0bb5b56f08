import { fitInUse, fittedOverrides } from '@rillmark/casebook/calibration/fit-in-use.ts'
import type { Conditions, ConditionsSeries } from '@rillmark/casebook/conditions/conditions.ts'
import { latestPrediction } from '@rillmark/casebook/conditions/latest-prediction.ts'
import { recalledConditions } from '@rillmark/casebook/conditions/recalled-conditions.ts'
import { systemEntryOf } from '@rillmark/casebook/conditions/system-entry.ts'
import { USUAL_SEED } from '@rillmark/casebook/conditions/usual-seed.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { useMemo } from 'react'
import { useDerived } from '../store/investigation.tsx'
import type { AsFitted } from './prediction-jobs.ts'
import type { RunState, WorkerRun } from './worker-run.ts'
import { useWorkerRun } from './use-worker-run.ts'

/** What is known of the water: worked out here, or taken from the record. */
export interface ShownPrediction {
  readonly conditions: Conditions
  readonly series: ConditionsSeries | undefined
  /** The description it speaks of. */
  readonly system: WaterSystem
  readonly from: 'run' | 'record'
  /** The description, or the fitted values it takes, changed since. */
  readonly stale: boolean
  /** The fit whose values it takes. */
  readonly fitted: AsFitted | undefined
}

export interface PredictionInHand {
  readonly shown: ShownPrediction | undefined
  readonly state: RunState<'predict'>
  readonly start: () => void
  readonly run: WorkerRun<'predict'>
}

/** The entry that last shaped the described system, empty without one. */
export const systemEntryIn = ({ record }: InvestigationState): string => systemEntryOf(record) ?? ''

/** The fit whose values predictions take now. */
export function asFittedIn(state: InvestigationState): AsFitted | undefined {
  const fit = fitInUse(state)
  const { system } = state.building
  if (fit === undefined || system === undefined) return undefined
  return { entry: fit.id, overrides: fittedOverrides(system, fit.body) }
}

/** The prediction of this investigation: the run made here, else the one the record keeps of the building as it is. */
export function usePrediction(system: WaterSystem): PredictionInHand {
  const { run, state } = useWorkerRun('predict')
  const systemEntry = useDerived(systemEntryIn)
  const recorded = useDerived(latestPrediction)
  const fitted = useDerived(asFittedIn)
  const recalled = useMemo(
    () =>
      recorded === undefined || recorded.changed === 'description'
        ? undefined
        : recalledConditions(system, recorded.entry.body),
    [recorded, system],
  )
  const shown = useMemo((): ShownPrediction | undefined => {
    if (state.kind === 'done' && state.answer.kind === 'conditions') {
      const { conditions, series } = state.answer
      const { job } = state
      const stale = job.systemEntry !== systemEntry || job.fitted?.entry !== fitted?.entry
      return { conditions, series, system: job.system, from: 'run', stale, fitted: job.fitted }
    }
    if (recalled === undefined) return undefined
    const stale = recorded?.stale === true
    return {
      conditions: recalled,
      series: undefined,
      system,
      from: 'record',
      stale,
      fitted: stale ? undefined : fitted,
    }
  }, [state, systemEntry, recalled, recorded, system, fitted])
  return useMemo(
    () => ({
      shown,
      state,
      run,
      start: () => run.start({ kind: 'predict', system, seed: USUAL_SEED, systemEntry, fitted }),
    }),
    [shown, state, run, system, systemEntry, fitted],
  )
}
