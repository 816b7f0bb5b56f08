import type { SampleKind } from '../entry/fields.ts'

/** What tells two samples to be of the same water. */
export interface TakenSample {
  readonly label: string
  readonly component?: string | undefined
  readonly round?: string | undefined
  readonly stop?: string | undefined
  readonly sampleKind?: SampleKind | undefined
  readonly collectedOn?: string | undefined
}

/**
 * Whether a sample that could not be read was taken again: another of its kind at its point, on a later day, or on the same day and
 * not unreadable itself.
 */
export function isTakenAgain(
  sample: TakenSample,
  { others, isUnread }: { others: Iterable<TakenSample>; isUnread: (label: string) => boolean },
): boolean {
  const { label, sampleKind, collectedOn } = sample
  const point = pointOf(sample)
  if (sampleKind === undefined || collectedOn === undefined || point === undefined) return false
  for (const other of others) {
    if (other.label === label || other.sampleKind !== sampleKind || pointOf(other) !== point) continue
    const day = other.collectedOn ?? ''
    if (day > collectedOn || (day === collectedOn && !isUnread(other.label))) return true
  }
  return false
}

function pointOf({ component, round, stop }: TakenSample): string | undefined {
  if (component !== undefined) return `component ${component}`
  return round === undefined || stop === undefined ? undefined : `stop ${round}/${stop}`
}
