import type { CasesState } from '@rillmark/casebook/cases/state.ts'
import { type CaseWindow, caseWindows } from '@rillmark/casebook/cases/windows.ts'
import { addDays, daysBetween } from '@rillmark/science/calendar/iso-date.ts'

export interface Stay {
  readonly id: string
  readonly place: string
  readonly kind: string
  readonly from: string
  readonly to: string
}

export interface TimelineRow {
  readonly window: CaseWindow
  readonly stays: readonly Stay[]
}

export interface Timeline {
  readonly rows: readonly TimelineRow[]
  readonly from: string
  readonly to: string
  readonly days: number
  /** highest chance of one day in any row, for shading all rows alike */
  readonly densest: number
}

const SHOWN_BEFORE_WINDOW = 3
const SHOWN_AFTER_ONSET = 4

/** The cases with a known onset as rows of one common calendar, wide enough for every window. */
export function timelineOf(state: CasesState): Timeline | undefined {
  const rows = caseWindows(state).map((window) => ({ window, stays: staysOf(state, window.code) }))
  const dated = rows.flatMap(({ window }) => (window.window === undefined ? [] : [window]))
  const starts = dated.map(({ window }) => window?.from ?? '').sort()
  const ends = dated.map(({ entry }) => entry.body.onsetDate ?? '').sort()
  const [first, last] = [starts[0], ends.at(-1)]
  if (first === undefined || last === undefined) return undefined
  const from = addDays(first, -SHOWN_BEFORE_WINDOW)
  const to = addDays(last, SHOWN_AFTER_ONSET)
  const densest = Math.max(...dated.flatMap(({ density }) => [...density.values()]))
  return { rows, from, to, days: daysBetween(from, to) + 1, densest }
}

function staysOf({ exposures }: CasesState, code: string): Stay[] {
  return exposures
    .filter(({ body }) => body.caseCode === code)
    .map(({ id, body: { place, kind, from, to } }) => ({ id, place, kind, from, to }))
    .sort((a, b) => (a.from < b.from ? -1 : 1))
}
