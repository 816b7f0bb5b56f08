import rule from '@rillmark/reference/cases/health-care-link.json' with { type: 'json' }
import { addDays, daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import type { CasesState } from './state.ts'
import { counted } from '../units/counted.ts'

/** How strongly a case's stay ties its illness to a care facility, with the days counted. */
export interface CareLink {
  readonly link: 'presumptive' | 'possible' | 'none' | 'not judged'
  readonly days: number
  readonly words: string
}

/**
 * Judges one case's recorded stays at places of the building against the surveillance definition of a health-care link:
 * continuous stay through the window is presumptive, part of it possible. The person decides; this prepares the judgement.
 */
export function careLink(state: CasesState, code: string): CareLink {
  const onset = state.cases.get(code)?.body.onsetDate
  if (onset === undefined) return { link: 'not judged', days: 0, words: 'No onset date, so no window to count in.' }
  const from = addDays(onset, -rule.windowDays)
  const stays = state.exposures.filter(({ body }) => body.caseCode === code && body.kind === 'stay')
  const days = longestRun(
    stays.map(({ body }) => body),
    { from, to: addDays(onset, -1) },
  )
  const words = `${counted(days, 'continuous day')} of stay in the ${rule.windowDays} days before onset`
  if (days >= rule.presumptiveDays) return { link: 'presumptive', days, words }
  return { link: days > 0 ? 'possible' : 'none', days, words }
}

function longestRun(
  stays: readonly { from: string; to: string }[],
  { from, to }: { from: string; to: string },
): number {
  const present = new Set<string>()
  for (const stay of stays) {
    const first = stay.from > from ? stay.from : from
    const last = stay.to < to ? stay.to : to
    if (first > last) continue
    for (let index = daysBetween(first, last); index >= 0; index -= 1) present.add(addDays(first, index))
  }
  let longest = 0
  let run = 0
  for (let day = from; day <= to; day = addDays(day, 1)) {
    run = present.has(day) ? run + 1 : 0
    longest = Math.max(longest, run)
  }
  return longest
}
