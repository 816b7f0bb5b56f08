import { type Treatment, treatmentsAt } from '../control/treatments.ts'

export interface SinceTreatment {
  readonly treatment: Treatment
  readonly days: number
}

/** The last treatment of a place on or before the day a sample was taken there. A sample of the same day counts as taken after it. */
export function sinceTreatment(
  treatments: readonly Treatment[],
  sample: { collectedOn: string | undefined; component: string | undefined },
): SinceTreatment | undefined {
  const { collectedOn, component } = sample
  if (collectedOn === undefined) return undefined
  const [last] = treatmentsAt(treatments, { component, date: collectedOn })
  return last === undefined ? undefined : { treatment: last.treatment, days: last.daysSince }
}
