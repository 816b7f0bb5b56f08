import definitions from '@rillmark/reference/incubation/definitions.json' with { type: 'json' }
import models from '@rillmark/reference/incubation/models.json' with { type: 'json' }
import { type Incubation, incubation } from '@rillmark/science/incubation/incubation.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { CasesState } from './state.ts'

/** A case with the days on which it may have been exposed; without an onset there is no window. */
export interface CaseWindow {
  readonly code: string
  readonly entry: EffectiveEntry<'case.recorded'>
  readonly window: { readonly from: string; readonly to: string } | undefined
  /** chance that exposure fell on a day, by date */
  readonly density: ReadonlyMap<string, number>
}

export const INCUBATION_DEFINITIONS: readonly { id: string; note: string }[] = definitions.definitions.map(
  ({ id, note }) => ({ id, note }),
)

/** Used until someone chooses: the widest window in use, so that no day is left unasked. */
const DEFAULT_DEFINITION = '0-14'

/** The incubation window in force: the one chosen if it is known, else the widest. */
export function definitionInUse({ incubation: chosen }: CasesState): string {
  const wanted = chosen?.body.definition
  return INCUBATION_DEFINITIONS.some(({ id }) => id === wanted) && wanted !== undefined ? wanted : DEFAULT_DEFINITION
}

/** Every case that still is one, in order of onset, with its window; unknown onsets last. */
export function caseWindows(state: CasesState): CaseWindow[] {
  const definition = definitionInUse(state)
  return [...state.cases.values()]
    .filter(({ body }) => body.classification !== 'not a case')
    .map((entry) => windowOf(entry, definition))
    .sort((a, b) => (onsetOf(a) < onsetOf(b) ? -1 : onsetOf(a) > onsetOf(b) ? 1 : a.code.localeCompare(b.code, 'en')))
}

function windowOf(entry: EffectiveEntry<'case.recorded'>, definition: string): CaseWindow {
  const { code, onsetDate } = entry.body
  if (onsetDate === undefined) return { code, entry, window: undefined, density: new Map() }
  const { window, density }: Incubation = incubation({ onsetDate, definition, model: models.usual })
  return { code, entry, window, density: new Map(density.map((day) => [day.date, day.density])) }
}

const NO_ONSET = '9999'
const onsetOf = ({ entry }: CaseWindow): string => entry.body.onsetDate ?? NO_ONSET
