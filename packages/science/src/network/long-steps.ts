import type { Network } from './network.ts'

const MINUTES_PER_DAY = 1440
/** The mains of networks of more pipes than this are worked out in steps of up to so many minutes. */
export const MANY_PIPES = 1000
export const LONG_STEP_MINUTES = 5

/**
 * Minutes of a step of the mains: the step of the twigs, and in a large network the longest of up to five minutes that its steps fill and that fills the
 * day. Of two buildings that are compared, both take the steps of one.
 *
 * @source none: it only divides a day
 */
export function usualMainMinutes({ pipes }: Network, stepMinutes: number): number {
  if (pipes.length <= MANY_PIPES) return stepMinutes
  for (let steps = Math.floor(LONG_STEP_MINUTES / stepMinutes); steps > 1; steps--)
    if (Number.isInteger(MINUTES_PER_DAY / (steps * stepMinutes))) return steps * stepMinutes
  return stepMinutes
}
