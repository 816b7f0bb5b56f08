import type { BodyOf } from '../entry/kinds.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import { addDays, daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import { shareOfDays } from '@rillmark/science/incubation/share-of-days.ts'
import type { CasesState } from './state.ts'
import { type CaseWindow, caseWindows } from './windows.ts'

/** How one case's stays at a place fall into its incubation window. */
export interface PlaceOverlap {
  readonly code: string
  /** days present inside the window */
  readonly days: number
  /** share of the incubation distribution on the days present, 0–1; undefined without an onset */
  readonly weight: number | undefined
}

/** A place and the cases that were there. */
export interface SharedPlace {
  readonly place: string
  readonly component?: string
  readonly cases: readonly PlaceOverlap[]
  /** the exposures it rests on */
  readonly exposures: readonly EffectiveEntry<'exposure.recorded'>[]
  /** cases whose window their stay touches */
  readonly inWindow: number
  /** sum of the weights: how much of the cases' incubation the place covers */
  readonly weight: number
}

/** Parts of the building a stay also lies in, by name: its riser, its floor. */
export type PartsOf = (exposure: BodyOf<'exposure.recorded'>) => readonly string[]

/**
 * Places by how much of the cases' incubation they cover: first the number of cases whose window they touch, then the summed weight.
 * A place is one place whatever the case of its letters; a stay longer than the window counts only inside it. With `partsOf` a stay counts
 * for the parts of the building it lies in as well, so that rooms of one riser come together.
 */
export function sharedPlaces(state: CasesState, partsOf: PartsOf = () => []): SharedPlace[] {
  const windows = new Map(caseWindows(state).map((window) => [window.code, window]))
  const gathered = new Map<string, Gathered>()
  for (const exposure of state.exposures) {
    const { body } = exposure
    const window = windows.get(body.caseCode)
    if (window === undefined) continue
    const days = relevantDays(body, window)
    for (const place of [body.place, ...partsOf(body)]) {
      const kept = gatheredAt(gathered, place)
      if (place === body.place && body.component !== undefined) kept.component ??= body.component
      kept.exposures.push(exposure)
      const present = kept.stays.get(body.caseCode) ?? new Set<string>()
      for (const day of days) present.add(day)
      kept.stays.set(body.caseCode, present)
    }
  }
  return [...gathered.values()].map((kept) => placeOf(kept, windows)).sort(mostCovering)
}

interface Gathered {
  readonly place: string
  component?: string
  readonly exposures: EffectiveEntry<'exposure.recorded'>[]
  /** days present by case code */
  readonly stays: Map<string, Set<string>>
}

function gatheredAt(gathered: Map<string, Gathered>, place: string): Gathered {
  const key = place.trim().toLowerCase()
  const kept = gathered.get(key) ?? { place, exposures: [], stays: new Map<string, Set<string>>() }
  gathered.set(key, kept)
  return kept
}

function placeOf({ stays, ...place }: Gathered, windows: ReadonlyMap<string, CaseWindow>): SharedPlace {
  const cases = [...stays].map(([code, days]) => overlapOf({ code, days, window: windows.get(code) }))
  return {
    ...place,
    cases,
    inWindow: cases.filter(({ days }) => days > 0).length,
    weight: cases.reduce((sum, { weight }) => sum + (weight ?? 0), 0),
  }
}

function overlapOf(stay: { code: string; days: ReadonlySet<string>; window: CaseWindow | undefined }): PlaceOverlap {
  const { code, days, window } = stay
  if (window?.window === undefined) return { code, days: 0, weight: undefined }
  const { from, to } = window.window
  const inside = [...days].filter((day) => day >= from && day <= to).length
  return { code, days: inside, weight: shareOfDays(window.density, days) }
}

/** The days of a stay that the incubation distribution reaches; without an onset none can be told. */
function relevantDays(stay: { from: string; to: string }, { density }: CaseWindow): string[] {
  const [earliest, latest] = extent([...density.keys()])
  if (earliest === undefined || latest === undefined) return []
  const from = stay.from > earliest ? stay.from : earliest
  const to = stay.to < latest ? stay.to : latest
  return from > to ? [] : Array.from({ length: daysBetween(from, to) + 1 }, (_, index) => addDays(from, index))
}

function extent(dates: readonly string[]): [string | undefined, string | undefined] {
  const sorted = [...dates].sort()
  return [sorted[0], sorted.at(-1)]
}

function mostCovering(a: SharedPlace, b: SharedPlace): number {
  return b.inWindow - a.inWindow || b.weight - a.weight || a.place.localeCompare(b.place, 'en')
}
