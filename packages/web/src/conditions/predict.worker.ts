import { calibrate } from '@rillmark/casebook/calibration/calibrate.ts'
import { fittedBeside } from '@rillmark/casebook/calibration/fitted-beside.ts'
import { mergeOverrides } from '@rillmark/casebook/calibration/merge-overrides.ts'
import { runSensitivity } from '@rillmark/casebook/conditions/sensitivity.ts'
import { simulateConditions } from '@rillmark/casebook/conditions/simulate-conditions.ts'
import { applyWhatIf } from '@rillmark/casebook/conditions/what-if.ts'
import type { Answers, Job, JobMessage, WhatIfJob, WhatIfRun } from './prediction-jobs.ts'

/** Works the water out away from the screen, so that it never stops typing. */
self.addEventListener('message', ({ data }: MessageEvent<Job>) => {
  try {
    tell({ answer: answerTo(data, steps()) })
  } catch (error) {
    tell({ failed: error instanceof Error ? error.message : String(error) })
  }
})

/** Spans of the day that curves are kept in: a quarter of an hour each. */
const SLOTS = 96

type Progress = (fraction: number) => void

function answerTo(job: Job, progress: Progress): Answers[Job['kind']] {
  switch (job.kind) {
    case 'predict':
      return simulateConditions(job.system, {
        seed: job.seed,
        slots: SLOTS,
        overrides: job.fitted?.overrides,
        progress,
      })
    case 'what-if':
      return changed(job, progress)
    case 'fit':
      return calibrate(job.system, {
        readings: job.readings,
        seed: job.seed,
        progress: (runs, ofAbout) => progress(runs / ofAbout),
      })
    case 'sensitivity':
      return runSensitivity({
        system: job.system,
        conditions: job.conditions,
        overrides: job.fitted?.overrides,
        progress,
      })
  }
}

function changed({ system, seed, changes, fitted }: WhatIfJob, progress: Progress): WhatIfRun {
  const applied = applyWhatIf(system, changes)
  if (applied.kind === 'issues') return applied
  const beside = fittedBeside(fitted?.overrides ?? {}, { system: applied.system, changes })
  const overrides = mergeOverrides([beside, applied.overrides])
  const comparedWith = { system, overrides: fitted?.overrides }
  const answer = simulateConditions(applied.system, { seed, slots: SLOTS, overrides, progress, comparedWith })
  if (answer.kind === 'cannot-say') return answer
  return { kind: 'changed', system: applied.system, conditions: answer.conditions, series: answer.series }
}

/** A finer step than this is not seen, and each costs the screen a drawing. */
const SEEN_STEP = 0.01

function steps(): (fraction: number) => void {
  let told = -1
  return (fraction) => {
    if (fraction - told < SEEN_STEP) return
    told = fraction
    tell({ fraction })
  }
}

function tell(message: JobMessage): void {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
  self.postMessage(message)
}
