import { stopOf } from './fit-budget.ts'
import { labelPlan } from './label-plan.ts'
import { judgeStops, type PreparedPlan } from './make-plan.ts'
import type { Plan, Stop } from './plan-file.ts'
import type { AskedPoint } from './plan-input.ts'

export interface AmendedPlan {
  readonly plan: Plan
  /** prepared from the building as it is described now */
  readonly prepared: PreparedPlan
}

/** An adopted plan without one of its stops, which is kept among those left out with the reason. The other labels stay as printed. */
export function withoutStop({ plan, prepared }: AmendedPlan, taken: { stop: string; why: string }): Plan {
  const gone = plan.stops.find(({ id }) => id === taken.stop)
  if (gone === undefined) return plan
  const stops = plan.stops.filter(({ id }) => id !== taken.stop)
  const leftOut = [
    ...plan.leftOut,
    { stop: gone, cost: `Taken out after the plan was adopted: ${taken.why}`.slice(0, 400) },
  ]
  return { ...plan, stops, leftOut, ...judgeStops(prepared, stops) }
}

/**
 * An adopted plan with one more point at its end, its samples labelled on from the highest number taken. The labels already printed stay.
 *
 * @returns the plan unchanged where the point is in it or the building has no such point
 */
export function withPoint(
  { plan, prepared }: AmendedPlan,
  added: { point: AskedPoint; taken: Iterable<string>; letters: string },
): Plan {
  const { point, taken, letters } = added
  if (plan.stops.some(({ component }) => component === point.component)) return plan
  const candidate = [...prepared.obligatory, ...prepared.spread].find(
    ({ component }) => component.id === point.component,
  )
  if (candidate === undefined) return plan
  const asked = { obligation: 'asked for' as const, text: point.text, evidence: [point.component] }
  const reasons = [
    asked,
    ...candidate.reasons.filter(({ obligation }) => obligation !== 'asked for' && obligation !== 'spread'),
  ]
  const stop: Stop = { ...stopOf(prepared.context, { ...candidate, reasons, rank: 1 }), team: 1 }
  const labelled = labelPlan({ plan: { ...plan, stops: [stop] }, taken, letters })
  const stops = [...plan.stops, ...labelled.stops]
  const leftOut = plan.leftOut.filter(({ stop: { component } }) => component !== point.component)
  return { ...plan, stops, leftOut, ...judgeStops(prepared, stops) }
}
