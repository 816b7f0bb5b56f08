import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { type FinishedRun, runOf } from './calculation-run.ts'

export type CalculationMessage = { readonly fraction: number } | { readonly run: FinishedRun }

/** Works a long calculation out away from the screen, so that it never stops typing. */
self.addEventListener('message', ({ data }: MessageEvent<{ id: string; given: unknown }>) => {
  const calculation = findCalculation(data.id)
  if (calculation !== undefined) answer(calculation, data.given)
})

/** A finer step than this is not seen, and each costs the screen a drawing. */
const SEEN_STEP = 0.01

function answer(calculation: Calculation, given: unknown): void {
  let told = -1
  const progress = (fraction: number): void => {
    if (fraction - told < SEEN_STEP) return
    told = fraction
    tell({ fraction })
  }
  tell({ run: runOf(calculation, { given, progress }) })
}

function tell(message: CalculationMessage): void {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
  self.postMessage(message)
}
