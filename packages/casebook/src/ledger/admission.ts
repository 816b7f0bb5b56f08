import { canonicalJson } from '../chain/canonical.ts'
import { byRightClock } from '../chain/clock.ts'
import { contestOf } from '../contests/contest-of.ts'
import { checkSignature } from '../devices/signature.ts'
import { signatureFault } from '../devices/signature-fault.ts'
import type { CheckSignature } from '../devices/signed-text.ts'
import type { Entry } from '../entry/entry.ts'
import { parseEntry } from '../entry/parse-entry.ts'
import { type Issue, issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { judgeEntry, recordIssues } from '../rules/check-entry.ts'
import { derive, extend } from '../state/derive.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/**
 * What was decided about one candidate: it joins the record, it was there already, it is kept beside what another device wrote until a
 * person settles the two accounts, or why it can't.
 */
export type Decision =
  | { readonly verdict: 'accepted'; readonly entry: Entry }
  | { readonly verdict: 'known'; readonly id: string }
  | { readonly verdict: 'contested'; readonly id: string; readonly entries: readonly Entry[] }
  | { readonly verdict: 'refused'; readonly id: string; readonly issues: readonly Issue[] }

/** What is written into the record when an entry turns out to be a second account. */
export interface SecondAccount {
  readonly state: InvestigationState
  /** as it was written and signed */
  readonly original: Entry
  readonly issues: readonly Issue[]
  readonly against: readonly string[]
  readonly clockAheadS?: number | undefined
  /** the next number of a device in this record */
  readonly nextNumber: (device: string) => number
}

export interface AdmissionOptions {
  /** in plain code unless a quicker one is given */
  readonly checkSignature?: CheckSignature | undefined
  /** writes what keeps a second account in the record; without it such an entry is refused */
  readonly writeContest?: ((account: SecondAccount) => readonly Entry[]) | undefined
}

/**
 * Decides which entries may join one record, each judged by the state the ones before it left. The state is derived once and grows
 * with every accepted entry. Where order is fixed (a server, a script) this is the door.
 */
export class Admission {
  #state: InvestigationState
  readonly #deviceSequences = new Map<string, number>()
  readonly #ids = new Set<string>()
  readonly #options: AdmissionOptions

  /** @param entries of the record, as they are read (`entriesOf`) */
  constructor(investigation: string, entries: readonly Entry[], options: AdmissionOptions = {}) {
    this.#options = options
    this.#state = derive(investigation, entries)
    this.#note(entries)
  }

  /** Derived from everything admitted so far; grows in place, so read it at once and don't keep it. */
  get state(): InvestigationState {
    return this.#state
  }

  /** Entries that joined the record elsewhere, after those known here; as they are read. */
  follow(entries: readonly Entry[]): void {
    this.#state = extend(this.#state, entries)
    this.#note(entries)
  }

  /**
   * Judges one candidate and, if it is let in, counts it as part of the record. What is signed goes in as it was written, anything else in
   * normal form; it is judged with its times by the right clock.
   */
  decide(candidate: unknown, { clockAheadS }: { clockAheadS?: number | undefined } = {}): Decision {
    const id = idOf(candidate)
    if (this.#ids.has(id)) return { verdict: 'known', id }
    const parsed = parseEntry(candidate)
    if (!parsed.ok) return { verdict: 'refused', id, issues: parsed.issues }
    const written = parsed.entry.signature === undefined ? parsed.entry : (candidate as Entry)
    const entry = byRightClock(parsed.entry, clockAheadS)
    const faults = this.#faults(written)
    if (faults.length > 0) return { verdict: 'refused', id, issues: faults }
    const judged = judgeEntry(this.#state, entry)
    const order = this.#orderIssues(written)
    if (!judged.ok) {
      const contestable = judged.by === 'record' && order.length === 0
      const account = contestable ? this.#secondAccount(entry) : undefined
      return account === undefined
        ? { verdict: 'refused', id, issues: judged.issues }
        : this.#contest({ original: written, issues: judged.issues, clockAheadS, ...account })
    }
    if (order.length > 0) return { verdict: 'refused', id, issues: order }
    this.follow([entry])
    return { verdict: 'accepted', entry: written }
  }

  #secondAccount(entry: Entry): { readonly against: readonly string[] } | undefined {
    return this.#options.writeContest === undefined
      ? undefined
      : contestOf(entry, { state: this.#state, judge: recordIssues })
  }

  #contest(account: Omit<SecondAccount, 'state' | 'nextNumber'>): Decision {
    const nextNumber = (device: string): number => (this.#deviceSequences.get(device) ?? 0) + 1
    const entries = this.#options.writeContest?.({ ...account, state: this.#state, nextNumber }) ?? []
    for (const entry of entries) {
      const parsed = parseEntry(entry)
      if (!parsed.ok)
        throw new TypeError(`Cannot write a contest of no sound shape: got ${JSON.stringify(parsed.issues)}`)
      this.follow([parsed.entry])
    }
    return { verdict: 'contested', id: account.original.id, entries }
  }

  /** What speaks against an entry whatever the record says: its writing and its signature. */
  #faults(written: Entry): Issue[] {
    const unwritable = writingIssues(written)
    if (unwritable.length > 0) return unwritable
    if (written.investigation !== this.#state.investigation) return []
    const joinedKey = this.#state.devices.get(written.device)?.key
    const { checkSignature: check = checkSignature } = this.#options
    // joining again is an objection of the rules, in their words
    const key = written.kind === 'device.joined' ? undefined : joinedKey
    const fault = signatureFault(written, { checkSignature: check, joinedKey: key })
    return fault === undefined
      ? []
      : [statedIssue('signature', { expected: `the signature of ${written.device}`, received: fault })]
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
    for (const entry of entries) {
      this.#noteOne(entry)
      // the account it carries has arrived too: sent again it is known, and its number is taken
      if (entry.kind === 'entry.contested') this.#noteOne(entry.body.entry)
    }
  }

  #noteOne({ id, device, deviceSequence }: { id: string; device: string; deviceSequence: number }): void {
    this.#ids.add(id)
    this.#deviceSequences.set(device, Math.max(deviceSequence, this.#deviceSequences.get(device) ?? 0))
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
