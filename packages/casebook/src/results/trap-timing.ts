import traps from '@rillmark/reference/results/traps.json' with { type: 'json' }
import { daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import type { KnownSample } from './known-samples.ts'
import type { ReadRow } from './read-row.ts'
import type { Reason } from './reason.ts'

/** Dates that cannot be, or hardly: results or receipt before the sample was taken, a culture read too soon, two collection dates. */
export function timingReasons(row: ReadRow, sample: KnownSample | undefined): Reason[] {
  const collectedOn = sample?.collectedOn ?? row.collectedOn
  if (collectedOn === undefined) return []
  const reasons: Reason[] = []
  for (const [words, date] of [
    ['reported', row.reportedOn],
    ['received', row.receivedOn],
  ] as const)
    if (date !== undefined && date < collectedOn)
      reasons.push({
        trap: 'before collection',
        blocks: true,
        words: `${words} on ${date}, but collected on ${collectedOn}`,
      })
  if (sample?.collectedOn !== undefined && row.collectedOn !== undefined && row.collectedOn !== sample.collectedOn)
    reasons.push({
      trap: 'dates differ',
      blocks: true,
      words: `the laboratory says collected on ${row.collectedOn}, the record says ${sample.collectedOn}`,
    })
  return [...reasons, ...tooSoon(row, collectedOn)]
}

function tooSoon({ reportedOn, results }: ReadRow, collectedOn: string): Reason[] {
  const cultured = results.some(
    ({ method, reading }) =>
      method === 'culture' &&
      reading.kind === 'value' &&
      ['count', 'below', 'not-detected'].includes(reading.value.kind),
  )
  if (!cultured || reportedOn === undefined || reportedOn < collectedOn) return []
  const days = daysBetween(collectedOn, reportedOn)
  if (days >= traps.culture.minimumDays.value) return []
  return [
    {
      trap: 'too soon',
      blocks: true,
      words: `a culture reported ${days} d after collection: colonies take longer to show`,
    },
  ]
}
