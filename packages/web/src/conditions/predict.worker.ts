import { simulateConditions } from '@rillmark/casebook/conditions/simulate-conditions.ts'
import type { Answers, Job, JobMessage } from './prediction-jobs.ts'

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

function answerTo(job: Job, progress: (fraction: number) => void): Answers[Job['kind']] {
  return simulateConditions(job.system, { seed: job.seed, slots: SLOTS, progress })
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
