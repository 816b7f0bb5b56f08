import type { SampleRow } from './sample-rows.ts'

/** What a person is looking at: a place, or the samples behind a bar, a fact or a conclusion. */
export type Focus =
  | { readonly kind: 'place'; readonly component: string; readonly words: string }
  | { readonly kind: 'samples'; readonly words: string; readonly labels: readonly string[] }

export function focusRows(rows: readonly SampleRow[], focus: Focus | undefined): readonly SampleRow[] {
  if (focus === undefined) return rows
  if (focus.kind === 'place') return rows.filter(({ component }) => component === focus.component)
  const wanted = new Set(focus.labels)
  return rows.filter(({ label }) => wanted.has(label))
}

/** The places of some samples, for lighting them up on the drawing. */
export function placesOf(rows: readonly SampleRow[]): ReadonlySet<string> {
  return new Set(rows.flatMap(({ component }) => component ?? []))
}
