/** Flows are kept in whole multiples of this (L/min), so that sums of them are exact and nothing gathers over a day. */
export const FLOW_STEP_L_PER_MIN = 2 ** -32

/**
 * A flow in whole multiples of the step in which flows are kept, L/min.
 *
 * @source none: it only rounds
 */
export function stepped(lPerMin: number): number {
  return Math.round(lPerMin / FLOW_STEP_L_PER_MIN) * FLOW_STEP_L_PER_MIN
}
