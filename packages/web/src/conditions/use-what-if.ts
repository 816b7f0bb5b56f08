import { compareConditions, type Comparison } from '@rillmark/casebook/conditions/compare-conditions.ts'
import type { WhatIfChange } from '@rillmark/casebook/conditions/what-if.ts'
import { useMemo, useState } from 'react'
import { useDerived } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { WhatIfRun } from './prediction-jobs.ts'
import { type ShownPrediction, systemEntryIn } from './use-prediction.ts'
import { useWorkerRun } from './use-worker-run.ts'
import type { RunState } from './worker-run.ts'

/** The building with something changed, beside the building as it is. */
export interface ChangedDay {
  readonly changes: readonly WhatIfChange[]
  readonly prediction: ShownPrediction
  readonly comparison: Comparison
}

export interface WhatIfInHand {
  readonly changes: readonly WhatIfChange[]
  readonly setChanges: (changes: readonly WhatIfChange[]) => void
  readonly state: RunState<'what-if'>
  readonly start: () => void
  readonly stop: () => void
  /** What the last run found, as long as the description stayed as it was. */
  readonly changed: ChangedDay | undefined
  /** Why it found nothing. */
  readonly refused: Exclude<WhatIfRun, { kind: 'changed' }> | undefined
}

/** The changes being tried, and the run with them; undefined while there is no prediction of the building as it is. */
export function useWhatIf(shown: ShownPrediction | undefined): WhatIfInHand | undefined {
  const { run, state } = useWorkerRun('what-if')
  const { units } = usePreferences()
  const systemEntry = useDerived(systemEntryIn)
  const [changes, setChanges] = useState<readonly WhatIfChange[]>(() =>
    state.kind === 'none' ? [] : state.job.changes,
  )
  return useMemo(() => {
    if (shown === undefined || shown.from === 'record' || shown.stale) return undefined
    const { system, conditions, fitted } = shown
    const answer =
      state.kind === 'done' && state.job.systemEntry === systemEntry && state.job.fitted?.entry === fitted?.entry
        ? state.answer
        : undefined
    return {
      changes,
      setChanges,
      state,
      start: () => run.start({ kind: 'what-if', system, systemEntry, changes, fitted, seed: conditions.seed }),
      stop: () => run.stop(),
      refused: answer?.kind === 'changed' ? undefined : answer,
      changed:
        answer?.kind !== 'changed' || state.kind === 'none'
          ? undefined
          : {
              changes: state.job.changes,
              prediction: { ...answer, from: 'run', stale: false, fitted },
              comparison: compareConditions({ before: shown, after: answer }, { units }),
            },
    }
  }, [shown, state, run, changes, systemEntry, units])
}
