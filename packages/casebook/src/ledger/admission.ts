import { canonicalJson } from '../chain/canonical.ts'
import type { Entry } from '../entry/entry.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive, extend } from '../state/derive.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** What was decided about one candidate: it joins the record, it was there already, or why it can't. */
export type Decision =
  | { readonly verdict: 'accepted'; readonly entry: Entry }
  | { readonly verdict: 'known'; readonly id: string }
  | { readonly verdict: 'refused'; readonly id: string; readonly issues: readonly Issue[] }

/**
 * Decides which entries may join one record, each judged by the state the ones before it left. The state is derived once and grows
 * with every accepted entry. Where order is fixed (a server, a script) this is the door.
 */
export class Admission {
  #state: InvestigationState
  readonly #deviceSequences = new Map<string, number>()
  readonly #ids = new Set<string>()

  constructor(investigation: string, entries: readonly Entry[]) {
    this.#state = derive(investigation, entries)
    this.#note(entries)
  }

  /** Derived from everything admitted so far; grows in place, so read it at once and don't keep it. */
  get state(): InvestigationState {
    return this.#state
  }

  /** Entries that joined the record elsewhere, after those known here. */
  follow(entries: readonly Entry[]): void {
    this.#state = extend(this.#state, entries)
    this.#note(entries)
  }

  /** Judges one candidate and, if it is let in, counts it as part of the record. */
  decide(candidate: unknown): Decision {
    const id = idOf(candidate)
    if (this.#ids.has(id)) return { verdict: 'known', id }
    const checked = checkEntry(this.#state, candidate)
    if (!checked.ok) return { verdict: 'refused', id, issues: checked.issues }
    const issues = [...this.#orderIssues(checked.entry), ...writingIssues(checked.entry)]
    if (issues.length > 0) return { verdict: 'refused', id, issues }
    this.follow([checked.entry])
    return { verdict: 'accepted', entry: checked.entry }
  }

  #orderIssues({ device, deviceSequence }: Entry): Issue[] {
    const last = this.#deviceSequences.get(device) ?? 0
    if (deviceSequence > last) return []
    return [
      issue('deviceSequence', {
        expected: `more than ${last}, the last number of ${device}`,
        received: deviceSequence,
      }),
    ]
  }

  #note(entries: readonly Entry[]): void {
    for (const { id, device, deviceSequence } of entries) {
      this.#ids.add(id)
      this.#deviceSequences.set(device, deviceSequence)
    }
  }
}

/** An entry that has no canonical JSON (half of a surrogate pair) could never be proved again. */
function writingIssues(entry: Entry): Issue[] {
  try {
    canonicalJson(entry)
    return []
  } catch (error) {
    const received = error instanceof Error ? error.message : String(error)
    return [issue('body', { expected: 'text and numbers that JSON can carry', received })]
  }
}

function idOf(candidate: unknown): string {
  if (typeof candidate !== 'object' || candidate === null || !('id' in candidate)) return ''
  return typeof candidate.id === 'string' ? candidate.id : ''
}
