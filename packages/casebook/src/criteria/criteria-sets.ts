import germany from '@rillmark/reference/criteria/de-trinkwv.json' with { type: 'json' }
import europe from '@rillmark/reference/criteria/eu-2020-2184.json' with { type: 'json' }
import france from '@rillmark/reference/criteria/fr-2010.json' with { type: 'json' }
import netherlands from '@rillmark/reference/criteria/nl-2011.json' with { type: 'json' }
import unitedKingdom from '@rillmark/reference/criteria/uk-hsg274.json' with { type: 'json' }
import unitedStates from '@rillmark/reference/criteria/us-cdc.json' with { type: 'json' }
import newYork from '@rillmark/reference/criteria/us-ny-facilities.json' with { type: 'json' }
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { type CriteriaSet, criteriaSetSchema, readCriteriaSet } from './criteria-set.ts'

/** The criteria sets that come with the program, in the order they are offered. */
export const CRITERIA_SETS: readonly CriteriaSet[] = [
  unitedStates,
  newYork,
  europe,
  germany,
  france,
  netherlands,
  unitedKingdom,
].map((set) => criteriaSetSchema.parse(set))

/** A criteria set by id among the built-in ones and the user's own; own ones come first only where their id differs. */
export function findCriteriaSet(id: string, own: readonly CriteriaSet[] = []): CriteriaSet | undefined {
  return [...CRITERIA_SETS, ...own].find((set) => set.id === id)
}

/** Accepts a user's own criteria set: checked by the schema, and its id may not hide a built-in one. All problems at once. */
export function acceptOwnCriteriaSet(
  input: unknown,
): { ok: true; value: CriteriaSet } | { ok: false; issues: Issue[] } {
  const read = readCriteriaSet(input)
  if (!read.ok || !CRITERIA_SETS.some(({ id }) => id === read.value.id)) return read
  return { ok: false, issues: [issue('id', { expected: 'an id that no built-in set has', received: read.value.id })] }
}
