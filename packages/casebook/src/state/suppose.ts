import { settlementsIn } from '../contests/settlements.ts'
import type { Entry } from '../entry/entry.ts'
import type { Versions } from '../record/state.ts'
import { deriveSupposed } from './derive.ts'
import { applyVersions, type Change, filed } from './filed.ts'
import { COLLECTING_STEPS, emptyState, type InvestigationState, type Step, stepOf } from './investigation-state.ts'
import { stepVersions } from './step-versions.ts'

/**
 * What would follow from other records than the one a state is of, as `deriveSupposed` gives it. Steps that a change does not touch are
 * those of the state itself, the others are collected anew from their own versions, and each only when it is asked for: a rule asks for
 * few. Read it at once, for the state grows in place.
 */
export function supposing(state: InvestigationState): (change: Change) => InvestigationState {
  const { investigation, record } = state
  return (change) => {
    const replaced = replacedBy(change, state)
    if (replaced === undefined) return deriveSupposed(investigation, { entries: record.entries, ...change })
    const supposed: Record<string, unknown> = { investigation }
    const settlements = () => settlementsIn(record.entries)
    onceAsked(supposed, {
      name: 'record',
      make: () => filed(record.entries, { ...change, settlements: settlements() }),
    })
    for (const step of COLLECTING_STEPS)
      onceAsked(supposed, {
        name: step,
        make: () => (replaced.steps.has(step) ? collected(step, { state, replaced }) : state[step]),
      })
    return supposed as unknown as InvestigationState
  }
}

/** What a change makes of the versions it touches. */
interface Replaced {
  readonly steps: ReadonlySet<Step>
  /** by the id of the first; undefined where nothing is left */
  readonly versions: ReadonlyMap<string, Versions | undefined>
  /** what counts too, after all others */
  readonly more: readonly Versions[]
}

/**
 * Undefined where what is left would be filed otherwise than it was: a correction of a version that is gone, or of something added, a
 * settlement that is gone.
 */
function replacedBy({ without = new Set(), also = [] }: Change, { record }: InvestigationState): Replaced | undefined {
  if (stepVersions(record).mixed || also.some(({ corrects }) => corrects !== undefined)) return undefined
  const versions = new Map<string, Versions | undefined>()
  for (const id of without) {
    const first = record.firstOf.get(id)
    const group = record.versions.get(first ?? '')
    if (group?.first.kind === 'contest.settled') return undefined
    if (first === undefined || group === undefined || versions.has(first)) continue
    const left = leftOf(group, without)
    if (left === 'otherwise') return undefined
    versions.set(first, left)
  }
  const more = [...new Map(also.map((each) => [each.id, each])).values()]
    .filter(({ id }) => !record.firstOf.has(id) || (versions.has(id) && versions.get(id) === undefined))
    .map((first) => ({ first, amendments: [] }))
  const firsts = [...versions.keys()].flatMap((id) => record.versions.get(id) ?? [])
  const steps = new Set([...firsts, ...more].flatMap(({ first }) => stepOf(first.kind) ?? []))
  return { steps, versions, more }
}

function leftOf(
  { first, amendments, withdrawn }: Versions,
  without: ReadonlySet<string>,
): Versions | undefined | 'otherwise' {
  // what puts an entry aside is a settlement, and no version of it
  const aside = withdrawn?.kind === 'contest.settled' ? { withdrawn } : {}
  const withdrawal = withdrawn === undefined || 'withdrawn' in aside ? [] : [withdrawn]
  const isLeft = ({ id }: Entry): boolean => !without.has(id)
  const left = [...amendments, ...withdrawal].filter(isLeft)
  if (left.some(({ corrects }) => corrects !== undefined && without.has(corrects.entry))) return 'otherwise'
  if (!isLeft(first)) return undefined
  const still = withdrawal.filter(isLeft).map((each) => ({ withdrawn: each }))
  return { first, amendments: amendments.filter(isLeft), ...aside, ...still[0] }
}

function collected(
  step: Step,
  { state, replaced }: { state: InvestigationState; replaced: Replaced },
): InvestigationState[Step] {
  const alone = emptyState(state.investigation)
  for (const versions of stepVersions(state.record).of(step)) {
    const { id } = versions.first
    const now = replaced.versions.has(id) ? replaced.versions.get(id) : versions
    if (now !== undefined) applyVersions(alone, now)
  }
  for (const versions of replaced.more) if (stepOf(versions.first.kind) === step) applyVersions(alone, versions)
  return alone[step]
}

function onceAsked(of: object, { name, make }: { name: string; make: () => unknown }): void {
  Object.defineProperty(of, name, {
    configurable: true,
    enumerable: true,
    get: () => {
      const value = make()
      Object.defineProperty(of, name, { value, enumerable: true })
      return value
    },
  })
}
