import { byRightClock } from '@rillmark/casebook/chain/clock.ts'
import { draftEntry, type Proposal } from '@rillmark/casebook/entry/draft.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { BodyOf, Kind } from '@rillmark/casebook/entry/kinds.ts'
import { checkEntry } from '@rillmark/casebook/rules/check-entry.ts'
import { derive, extend } from '@rillmark/casebook/state/derive.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { isFull, MAKE_ROOM } from '../offline/room.ts'
import type { InvestigationPorts, OpenedInvestigation, SyncState } from './ports.ts'

export interface ProposeOptions {
  readonly corrects?: { readonly entry: string; readonly reason: string }
  /**
   * a refused entry of this browser that this one is written for: it bears the time of that one, because what was done was done then, and
   * takes its place among what waits
   */
  readonly instead?: Entry
}

export type Proposed =
  | { readonly ok: true; readonly entry: Entry }
  | { readonly ok: false; readonly issues: readonly Issue[] }

/** Several proposals together: every one is in the record, or none, with everything that speaks against each. */
export type ProposedAll =
  | { readonly ok: true; readonly entries: readonly Entry[] }
  | {
      readonly ok: false
      /** `at` is the index of the proposal; absent where the trouble is with keeping them */
      readonly refused: readonly { readonly at?: number; readonly issues: readonly Issue[] }[]
    }

/** What the screens see at one moment. A new object for every version, so the same object means nothing changed. */
export interface Snapshot {
  readonly state: InvestigationState
  readonly version: number
  readonly sync: SyncState
}

/**
 * One investigation in memory: its derived state, a version that grows with every change, and the one way to add to it. A proposal
 * is checked by the casebook's rules, kept durably on this device, and only then shown.
 */
export class InvestigationStore {
  readonly id: string
  readonly #ports: InvestigationPorts
  readonly #listeners = new Set<() => void>()
  #snapshot: Snapshot
  #queue: Promise<unknown> = Promise.resolve()
  readonly #underWay = new Map<string, Promise<Proposed>>()
  readonly #allUnderWay = new Map<string, Promise<ProposedAll>>()

  constructor({ id, entries, ports, sync }: OpenedInvestigation) {
    this.id = id
    this.#ports = ports
    this.#snapshot = { state: derive(id, entries), version: 1, sync }
  }

  /** The id of this device, as its entries name it. */
  get device(): string {
    return this.#ports.device
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }

  readonly snapshot = (): Snapshot => this.#snapshot

  /**
   * Proposals go one after the other, so each is judged by the state the one before it left. The same proposal while the first is still
   * being kept is one press made twice: it is answered with the first.
   */
  propose<K extends Kind>(proposal: { kind: K; body: BodyOf<K>; author: string } & ProposeOptions): Promise<Proposed> {
    const same = JSON.stringify(proposal)
    return onceAtATime(this.#underWay, { same, begin: () => this.#inTurn(() => this.#propose(proposal)) })
  }

  /**
   * Proposals that belong together: each is judged by the state the ones before it would leave, and only then are all of them kept. The same
   * ones while the first are still being kept are one press made twice too.
   */
  proposeAll(proposals: readonly Proposal[], { author }: { author: string }): Promise<ProposedAll> {
    const same = JSON.stringify([proposals, author])
    const begin = () => this.#inTurn(() => this.#proposeAll(proposals, { author }))
    return onceAtATime(this.#allUnderWay, { same, begin })
  }

  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const alone = this.#ports.alone ?? ((job) => job())
    const turn = this.#queue.then(() => alone(work))
    this.#queue = turn.catch(() => undefined)
    return turn
  }

  /** Entries that arrived from elsewhere, after those already here. */
  receive(entries: readonly Entry[]): void {
    const known = new Set(this.#snapshot.state.record.entries.map((entry) => entry.id))
    const fresh = entries.filter((entry) => !known.has(entry.id))
    if (fresh.length > 0) this.#show({ state: extend(this.#snapshot.state, fresh) })
  }

  /** The whole record anew, where the server fixed another order. */
  replace(entries: readonly Entry[]): void {
    this.#show({ state: derive(this.id, entries) })
  }

  setSync(sync: SyncState): void {
    this.#snapshot = { ...this.#snapshot, sync }
    this.#tell()
  }

  async #propose<K extends Kind>(
    proposal: { kind: K; body: BodyOf<K>; author: string } & ProposeOptions,
  ): Promise<Proposed> {
    const { author, instead, ...what } = proposal
    const desk = await this.#desk(author)
    if (!desk.ok) return desk
    const checked = checkEntry(this.#snapshot.state, desk.draft(what, instead))
    if (!checked.ok) return checked
    try {
      const judged = [...desk.joined, checked.entry]
      const { keep, keepAll } = this.#ports
      const one = (entries: readonly Entry[]): Promise<void> => {
        const [only, ...more] = entries
        if (instead !== undefined) return keepAll(entries, [instead.id])
        return only !== undefined && more.length === 0 ? keep(only) : keepAll(entries)
      }
      const entries = await this.#keep(judged, { ...desk, by: one })
      return { ok: true, entry: entries.at(-1) ?? checked.entry }
    } catch (error) {
      return { ok: false, issues: notKept(error) }
    }
  }

  async #proposeAll(proposals: readonly Proposal[], { author }: { author: string }): Promise<ProposedAll> {
    const desk = await this.#desk(author)
    if (!desk.ok) return { ok: false, refused: [{ issues: desk.issues }] }
    const entries: Entry[] = []
    const refused: { at?: number; issues: readonly Issue[] }[] = []
    // what is tried is extended in place, so that it is not the state that is shown; one alone needs no trial
    const alone = proposals.length === 1
    let trial = alone ? this.#snapshot.state : derive(this.id, this.#snapshot.state.record.entries)
    for (const [at, proposal] of proposals.entries()) {
      const checked = checkEntry(trial, desk.draft(proposal))
      if (!checked.ok) {
        refused.push({ at, issues: checked.issues })
        continue
      }
      entries.push(checked.entry)
      if (!alone) trial = extend(trial, [checked.entry])
    }
    if (refused.length > 0) return { ok: false, refused }
    try {
      const kept = await this.#keep([...desk.joined, ...entries], { ...desk, by: this.#ports.keepAll })
      return { ok: true, entries: kept.slice(desk.joined.length) }
    } catch (error) {
      return { ok: false, refused: [{ issues: notKept(error) }] }
    }
  }

  /**
   * Numbers and envelopes for what is written next, with its times by the right clock, as the record will read them. A device with a key
   * says first who it is, once in each investigation.
   */
  async #desk(author: string): Promise<DeskHere> {
    const { device, newId, now, seen, joining, nextDeviceSequence } = this.#ports
    const aheadS = this.#ports.clockAheadS?.() ?? 0
    let deviceSequence = await nextDeviceSequence()
    const draft = (what: Proposal, instead?: Entry): Entry => {
      const { instant, offset } = instead ?? now()
      const when = { instant, offset }
      const desk = { investigation: this.id, author, device, deviceSequence, now: when, newId, seen: seen?.() }
      deviceSequence += 1
      return byRightClock(draftEntry(desk, what), aheadS)
    }
    const proposal = this.#snapshot.state.devices.has(device) ? undefined : await joining?.(author)
    if (proposal === undefined) return { ok: true, aheadS, draft, joined: [] }
    if (proposal.body.role === 'reader')
      return { ok: false, issues: [issue('device', { expected: 'a device that may write', received: 'a reader' })] }
    const checked = checkEntry(this.#snapshot.state, draft(proposal))
    return checked.ok ? { ok: true, aheadS, draft, joined: [checked.entry] } : checked
  }

  /** Signs what was found sound, keeps it as this device's own clock has it, and only then shows it. */
  async #keep(
    judged: readonly Entry[],
    { aheadS, by }: { aheadS: number; by: InvestigationPorts['keepAll'] },
  ): Promise<readonly Entry[]> {
    const { sign } = this.#ports
    const written = judged.map((entry) => byRightClock(entry, -aheadS))
    const entries = sign === undefined ? written : await Promise.all(written.map(sign))
    await by(entries)
    this.#show({
      state: extend(
        this.#snapshot.state,
        entries.map((entry) => byRightClock(entry, aheadS)),
      ),
    })
    return entries
  }

  #show({ state }: { state: InvestigationState }): void {
    this.#snapshot = { ...this.#snapshot, state, version: this.#snapshot.version + 1 }
    this.#tell()
  }

  #tell(): void {
    for (const listener of this.#listeners) listener()
  }
}

type DeskHere =
  | {
      readonly ok: true
      readonly aheadS: number
      readonly draft: (what: Proposal, instead?: Entry) => Entry
      readonly joined: readonly Entry[]
    }
  | { readonly ok: false; readonly issues: readonly Issue[] }

function onceAtATime<T>(
  underWay: Map<string, Promise<T>>,
  { same, begin }: { same: string; begin: () => Promise<T> },
): Promise<T> {
  const before = underWay.get(same)
  if (before !== undefined) return before
  const turn = begin()
  underWay.set(same, turn)
  void turn.then(undefined, () => undefined).finally(() => underWay.delete(same))
  return turn
}

function notKept(error: unknown): readonly Issue[] {
  if (isFull(error))
    return [
      issue('', {
        expected: `room on this device. Nothing typed is lost. ${MAKE_ROOM}, then try again`,
        received: 'a full one',
      }),
    ]
  return [issue('', { expected: 'room and permission to keep it on this device', received: String(error) })]
}
