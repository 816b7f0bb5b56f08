import type { Treatment } from '../control/treatments.ts'
import { daysBetween } from '@rillmark/science/calendar/iso-date.ts'

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
  const last = treatments.findLast(
    ({ on, components }) =>
      on <= collectedOn && (components === undefined || (component !== undefined && components.has(component))),
  )
  return last === undefined ? undefined : { treatment: last, days: daysBetween(last.on, collectedOn) }
}
