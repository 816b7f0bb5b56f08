import type { TemperatureCurve } from './kinds.ts'

/** When the next reading of a curve is asked for. */
export interface Beat {
  /** which beat since the tap was opened, counted from 0 */
  readonly number: number
  readonly atSeconds: number
  /** seconds until then; 0 or less once it is due */
  readonly dueInSeconds: number
}

/**
 * The beat that is waited for: beats come every so many seconds from the opening of the tap, whatever was read when. A reading answers
 * the beat it is nearest to, so an early or a late one puts off nothing; a beat nobody answered is passed over when the next has come.
 */
export function nextBeat(of: {
  points: TemperatureCurve['points']
  /** now, since the tap was opened */
  seconds: number
  everySeconds: number
}): Beat {
  const { points, seconds, everySeconds } = of
  if (!(everySeconds > 0))
    throw new RangeError(`Cannot tell the next reading because the interval must be above 0 s: got ${everySeconds}`)
  const last = points.at(-1)
  const answered = last === undefined ? -1 : Math.round(last.seconds / everySeconds)
  const number = Math.max(answered + 1, Math.floor(seconds / everySeconds))
  const atSeconds = number * everySeconds
  return { number, atSeconds, dueInSeconds: atSeconds - seconds }
}
