import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { type Head, type Link, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { type Entry, envelopeSchema } from '@rillmark/casebook/entry/entry.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { Admission, type Decision } from '@rillmark/casebook/ledger/admission.ts'
import { clockAheadS } from '@rillmark/casebook/chain/clock.ts'
import { contestEntries } from '@rillmark/casebook/contests/write-contest.ts'
import { type Ledger, LedgerConflict } from '@rillmark/casebook/ledger/ledger.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { randomUUID } from 'node:crypto'
import { quickSignatureCheck } from '../devices/check-signature.ts'
import type { ServerKey } from '../devices/server-key.ts'
import { Queues } from '../folder/queues.ts'
import { type Summary, summaryOf } from './summary.ts'

/** The clocks at the moment entries arrived. */
export interface Arrival {
  /** of the device that sent them */
  readonly deviceNow?: string | undefined
  /** the latest instant of all that waits there from one setting of its clock, of which these entries are a part */
  readonly latest?: string | undefined
  /** of this server */
  readonly serverNow: string
}

export interface AppendOutcome {
  /** what is in the record now, also as a second account */
  readonly accepted: readonly { readonly id: string; readonly sequence: number }[]
  /** those of them that are second accounts, under the number of their contest, until a person settles them */
  readonly contested: readonly { readonly id: string; readonly sequence: number }[]
  readonly refused: readonly { readonly id: string; readonly issues: readonly Issue[] }[]
  readonly head: Head
}

export type ImportOutcome =
  | { readonly ok: true; readonly added: number; readonly head: Head }
  | { readonly ok: false; readonly at: number }

interface OpenRecord {
  readonly admission: Admission
  head: Head
  /** time of receipt of the last link: the next is never earlier, even when the clock was set back */
  received: string
  /** what was found of the clock of each device the last time, and by which latest instant */
  readonly clocks: Map<string, { readonly aheadS: number | undefined; readonly latest?: string }>
}

/** Records kept derived in memory: so many at most, and so many entries together; the last used always. */
const MOST_OPEN = 64
const MOST_OPEN_ENTRIES = 100_000
/** Another process may commit between judging and storing: judge again by the newer state. */
const MOST_ATTEMPTS = 5
const READ_PAGE = 2000
/** Finding what an entry contradicts takes the longest: so many in one batch, then others get their turn in this record. */
const MOST_CONTESTS = 20
/** Decisions made before others get a turn on the event loop. */
const DECISIONS_A_TURN = 50

/**
 * Where order is fixed. Each investigation has its own queue, so entries join one record one batch after another; the state that
 * judges them is derived once and grows. The ledger may be written by another process too: what it added is followed first.
 */
export class Records {
  readonly ledger: Ledger
  readonly #now: () => string
  readonly #key: (() => ServerKey) | undefined
  readonly #checkSignature = quickSignatureCheck()
  readonly #open = new Map<string, OpenRecord>()
  readonly #summaries = new Map<string, Summary>()
  readonly #queues = new Queues()
  readonly #listeners = new Map<string, Set<(head: Head) => void>>()

  /**
   * @param now the instant of receipt, UTC with milliseconds
   * @param key what the server signs second accounts with; without it such entries are refused
   */
  constructor(ledger: Ledger, { now, key }: { now: () => string; key?: () => ServerKey }) {
    this.ledger = ledger
    this.#now = now
    this.#key = key
  }

  /** Takes what may join the record, in the order given. Sending the same entries again is harmless. */
  append(investigation: string, candidates: readonly unknown[], arrival?: Arrival): Promise<AppendOutcome> {
    return this.#queues.run(investigation, async () => {
      for (let attempt = 1; ; attempt += 1) {
        try {
          return await this.#append(await this.#opened(investigation), { investigation, candidates, arrival })
        } catch (error) {
          // what was judged but not stored must not stay in the state
          this.#open.delete(investigation)
          const overtaken = error instanceof LedgerConflict && attempt < MOST_ATTEMPTS
          if (!overtaken) throw error
        }
      }
    })
  }

  /** Takes a whole verified record: all of it, or what is missing at its end, or nothing when it tells another story. */
  importRecord(investigation: string, links: readonly Link[]): Promise<ImportOutcome> {
    return this.#queues.run(investigation, async () => {
      const head = await this.ledger.head(investigation)
      const held = await this.#readAll(investigation)
      const fork = held.findIndex((link, index) => links[index] !== undefined && links[index].hash !== link.hash)
      if (fork >= 0) return { ok: false, at: fork + 1 }
      const fresh = links.slice(head.sequence)
      await this.ledger.commit(fresh)
      const after = await this.ledger.head(investigation)
      if (fresh.length > 0) this.#tell(investigation, after)
      return { ok: true, added: fresh.length, head: after }
    })
  }

  /** The state as of now. It grows in place with the next entries: read from it at once. */
  state(investigation: string): Promise<{ state: InvestigationState; head: Head }> {
    return this.#queues.run(investigation, async () => {
      const { admission, head } = await this.#opened(investigation)
      return { state: admission.state, head }
    })
  }

  async summaries(): Promise<Summary[]> {
    const ids = await this.ledger.investigations()
    const summaries: Summary[] = []
    for (const id of ids) summaries.push(await this.#summary(id))
    return summaries
  }

  /** Calls the listener with each new head until the returned function is called. */
  follow(investigation: string, listener: (head: Head) => void): () => void {
    const listeners = this.#listeners.get(investigation) ?? new Set()
    this.#listeners.set(investigation, listeners.add(listener))
    return () => {
      listeners.delete(listener)
      if (listeners.size === 0) this.#listeners.delete(investigation)
    }
  }

  /** All links, for documents and exports. */
  links(investigation: string): Promise<Link[]> {
    return this.#readAll(investigation)
  }

  async #append(
    record: OpenRecord,
    given: { investigation: string; candidates: readonly unknown[]; arrival: Arrival | undefined },
  ): Promise<AppendOutcome> {
    const { investigation, candidates, arrival } = given
    const aheadOf = arrival === undefined ? () => undefined : clocksAt(arrival, { candidates, record })
    const decisions = await decideAll(record.admission, { candidates, aheadOf })
    const entries = decisions.flatMap((each) =>
      each.verdict === 'accepted' ? [each.entry] : each.verdict === 'contested' ? each.entries : [],
    )
    const own = new Set(decisions.flatMap((each) => (each.verdict === 'contested' ? each.entries : [])))
    const ahead = (entry: Entry): number | undefined => (own.has(entry) ? undefined : aheadOf(entry.device))
    await this.#commit(record, { investigation, entries, ahead })
    return this.#outcome(record, { investigation, decisions })
  }

  async #outcome(
    { admission, head }: OpenRecord,
    { investigation, decisions }: { investigation: string; decisions: readonly Decision[] },
  ): Promise<AppendOutcome> {
    const { contested } = admission.state.contests
    const ids = decisions.flatMap((each) => (each.verdict === 'refused' ? [] : [idIn(each)]))
    const places = ids.map((id) => ({ id, place: contested.get(id)?.contested.id ?? id }))
    const sequences = await this.ledger.sequencesOf(
      investigation,
      places.map(({ place }) => place),
    )
    const accepted = places.map(({ id, place }) => ({ id, sequence: sequences.get(place) ?? 0 }))
    return {
      accepted,
      contested: accepted.filter(({ id }) => contested.has(id)),
      refused: decisions.flatMap((each) => (each.verdict === 'refused' ? [{ id: each.id, issues: each.issues }] : [])),
      head,
    }
  }

  async #commit(
    record: OpenRecord,
    given: { investigation: string; entries: readonly Entry[]; ahead: (entry: Entry) => number | undefined },
  ) {
    const { investigation, entries, ahead } = given
    if (entries.length === 0) return
    const now = this.#now()
    const received = now < record.received ? record.received : now
    const links = linkEntries(record.head, { entries, received, ahead })
    await this.ledger.commit(links)
    took(record, links)
    this.#tell(investigation, record.head)
  }

  #tell(investigation: string, head: Head): void {
    for (const listener of this.#listeners.get(investigation) ?? []) listener(head)
  }

  async #opened(investigation: string): Promise<OpenRecord> {
    const record = this.#open.get(investigation) ?? (await this.#load(investigation))
    const head = await this.ledger.head(investigation)
    if (head.sequence < record.head.sequence) return this.#keepOpen(investigation, await this.#load(investigation))
    while (record.head.sequence < head.sequence) await this.#catchUp(investigation, record)
    return this.#keepOpen(investigation, record)
  }

  async #catchUp(investigation: string, record: OpenRecord): Promise<void> {
    const links = await this.ledger.read(investigation, { after: record.head.sequence, limit: READ_PAGE })
    if (links.length === 0) throw new Error(`Cannot follow ${investigation} because its links end before its head`)
    record.admission.follow(entriesOf(links))
    took(record, links)
  }

  async #load(investigation: string): Promise<OpenRecord> {
    const links = await this.#readAll(investigation)
    const record: OpenRecord = {
      admission: new Admission(investigation, entriesOf(links), {
        checkSignature: this.#checkSignature,
        writeContest: this.#key === undefined ? undefined : (account) => contestEntries(account, this.#writer()),
      }),
      head: await this.#emptyHead(investigation, links),
      received: '',
      clocks: new Map(),
    }
    took(record, links)
    return record
  }

  #emptyHead(investigation: string, links: readonly Link[]): Promise<Head> | Head {
    return links.length === 0 ? this.ledger.head(investigation) : { sequence: 0, hash: '' }
  }

  #writer() {
    const key = this.#key?.()
    if (key === undefined) throw new TypeError('Cannot keep a second account because this server has no key')
    return { key: key.publicKey, sign: key.sign, now: this.#now, newId: () => randomUUID() }
  }

  #keepOpen(investigation: string, record: OpenRecord): OpenRecord {
    this.#open.delete(investigation)
    this.#open.set(investigation, record)
    let entries = [...this.#open.values()].reduce((sum, { head }) => sum + head.sequence, 0)
    for (const [oldest, { head }] of this.#open) {
      if (oldest === investigation || (this.#open.size <= MOST_OPEN && entries <= MOST_OPEN_ENTRIES)) break
      this.#open.delete(oldest)
      entries -= head.sequence
    }
    return record
  }

  async #readAll(investigation: string): Promise<Link[]> {
    const links: Link[] = []
    for (;;) {
      const page = await this.ledger.read(investigation, { after: links.length, limit: READ_PAGE })
      for (const link of page) links.push(link)
      if (page.length < READ_PAGE) return links
    }
  }

  async #summary(investigation: string): Promise<Summary> {
    const known = this.#summaries.get(investigation)
    const { hash } = await this.ledger.head(investigation)
    if (known?.head.hash === hash) return known
    const { state, head } = await this.state(investigation)
    const summary = summaryOf(state, head)
    this.#summaries.set(investigation, summary)
    return summary
  }
}

/** The record goes on after these links. */
function took(record: OpenRecord, links: readonly Link[]): void {
  for (const { entry, clockAheadS: aheadS } of links)
    if (record.clocks.get(entry.device)?.aheadS !== aheadS) record.clocks.set(entry.device, { aheadS })
  const last = links.at(-1)
  if (last === undefined) return
  record.head = { sequence: last.sequence, hash: last.hash }
  record.received = last.received
}

/**
 * What is found of the clock of each device whose entries arrived together. Batches that say the same latest instant are parts of one
 * whole: what was found for the first holds for all, however long the network was away between them.
 */
function clocksAt(
  { deviceNow, serverNow, latest: told }: Arrival,
  { candidates, record }: { candidates: readonly unknown[]; record: OpenRecord },
): (device: string) => number | undefined {
  const latest = new Map<string, string>()
  for (const candidate of candidates) {
    const read = ofDevice.safeParse(candidate)
    if (!read.success) continue
    const { device, instant } = read.data
    const known = latest.get(device) ?? told ?? ''
    latest.set(device, instant > known ? instant : known)
  }
  const ahead = new Map(
    [...latest].map(([device, last]) => {
      const before = record.clocks.get(device)
      const again = before !== undefined && before.latest === last
      const aheadS = again
        ? before.aheadS
        : clockAheadS({ deviceNow, received: serverNow, latest: last, before: before?.aheadS })
      if (deviceNow !== undefined) record.clocks.set(device, { aheadS, latest: last })
      return [device, aheadS]
    }),
  )
  return (device) => ahead.get(device)
}

const ofDevice = envelopeSchema.pick({ device: true, instant: true }).loose()

/** Decides in order, and leaves the rest of a batch undecided where too much of it is contested: it is sent again. */
async function decideAll(
  admission: Admission,
  { candidates, aheadOf }: { candidates: readonly unknown[]; aheadOf: (device: string) => number | undefined },
): Promise<Decision[]> {
  const decisions: Decision[] = []
  let contests = 0
  for (const candidate of candidates) {
    const read = ofDevice.safeParse(candidate)
    const decision = admission.decide(candidate, { clockAheadS: read.success ? aheadOf(read.data.device) : undefined })
    decisions.push(decision)
    if (decision.verdict === 'contested' && (contests += 1) === MOST_CONTESTS) break
    // finding what an entry contradicts takes the longest
    if (decision.verdict === 'contested' || decisions.length % DECISIONS_A_TURN === 0)
      await new Promise((resolve) => setImmediate(resolve))
  }
  return decisions
}

function idIn(decision: Exclude<Decision, { verdict: 'refused' }>): string {
  return decision.verdict === 'accepted' ? decision.entry.id : decision.id
}
