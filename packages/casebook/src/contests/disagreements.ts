import { readingAmount } from '../fieldwork/reading-words.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { type EffectiveEntry, effective } from '../state/effective.ts'
import type { Entry } from '../entry/entry.ts'
import type { Versions } from '../record/state.ts'

/** Two entries of two devices that are both in the record and do not say the same of one thing. */
export interface Disagreement {
  readonly about: 'reading' | 'outcome'
  readonly round: string
  readonly stop: string
  /** the one that came into the record first */
  readonly first: EffectiveEntry<'reading.taken' | 'stop.finished'>
  readonly second: EffectiveEntry<'reading.taken' | 'stop.finished'>
}

interface Told {
  readonly entry: EffectiveEntry<'reading.taken' | 'stop.finished'>
  readonly says: string
  readonly sequence: number
  readonly seen: number | undefined
}

/**
 * Readings of one quantity in one water at one stop, and outcomes of one stop, that two devices give differently, where the later one's
 * writer did not know of the earlier. What a person has settled is left out.
 */
export function disagreements(state: InvestigationState): readonly Disagreement[] {
  const told = new Map<string, Told[]>()
  const sequenceOf = new Map(state.record.entries.map(({ id }, index) => [id, index + 1]))
  for (const versions of state.record.versions.values()) {
    const one = toldBy(versions, sequenceOf)
    if (one !== undefined) told.set(one.thing, [...(told.get(one.thing) ?? []), one])
  }
  return [...told.values()].flatMap(differing).filter(({ first, second }) => !isSettled(state, { first, second }))
}

function toldBy(
  { first, amendments, withdrawn }: Versions,
  sequenceOf: ReadonlyMap<string, number>,
): (Told & { thing: string }) | undefined {
  if (withdrawn !== undefined || (first.kind !== 'reading.taken' && first.kind !== 'stop.finished')) return undefined
  const entry = effective(first as Entry & { kind: 'reading.taken' | 'stop.finished' }, amendments)
  return {
    thing: thingOf(entry),
    says: saysOf(entry),
    entry,
    sequence: sequenceOf.get(first.id) ?? 0,
    seen: first.seen,
  }
}

function thingOf({ kind, body }: Told['entry']): string {
  const water = 'quantity' in body ? [body.quantity, body.component ?? '', body.circuit ?? ''] : []
  return JSON.stringify([kind, body.round, body.stop, ...water])
}

function saysOf({ body }: Told['entry']): string {
  return 'quantity' in body ? readingAmount(body.reading) : body.outcome
}

/** Each later account beside the first of another device that says otherwise. */
function differing(told: readonly Told[]): Disagreement[] {
  const inOrder = told.toSorted((a, b) => a.sequence - b.sequence)
  return inOrder.flatMap((second, at) => {
    const first = inOrder.slice(0, at).find((each) => isUnlike(each, second))
    if (first === undefined) return []
    const { round, stop } = second.entry.body
    const about = second.entry.kind === 'reading.taken' ? 'reading' : 'outcome'
    return [{ about, round, stop, first: first.entry, second: second.entry }]
  })
}

function isUnlike(first: Told, second: Told): boolean {
  const knew = second.seen !== undefined && second.seen >= first.sequence
  return first.entry.device !== second.entry.device && first.says !== second.says && !knew
}

function isSettled(
  { contests }: InvestigationState,
  { first, second }: Pick<Disagreement, 'first' | 'second'>,
): boolean {
  return contests.settled.get(second.id)?.body.against === first.id
}
