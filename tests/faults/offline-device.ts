import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { BodyOf, Kind } from '@rillmark/casebook/entry/kinds.ts'
import { MemoryLedger } from '@rillmark/casebook/ledger/memory-ledger.ts'
import { MemoryOutbox } from '@rillmark/casebook/ledger/memory-outbox.ts'
import { checkEntry } from '@rillmark/casebook/rules/check-entry.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { ServerPort } from '../../packages/web/src/sync/server-port.ts'
import { exchange, type Exchange } from '../../packages/web/src/sync/sync-engine.ts'
import { signingHand } from './signing-hand.ts'

const ALL = { after: 0, limit: 1_000_000 }

/** A device with the app's own sync engine and rules, and a clock of its own. What it holds is what its disk would. */
export class OfflineDevice {
  readonly name: string
  readonly ledger = new MemoryLedger()
  readonly outbox: MemoryOutbox
  readonly written: Entry[] = []
  /** by id: when an entry was truly written, and by which setting of the clock */
  readonly wrote = new Map<string, { readonly trueMs: number; readonly setting: number }>()
  /** why the last entry was not written, where its own rules objected */
  objections: readonly Issue[] = []
  readonly #investigation: string
  readonly #hand: ReturnType<typeof signingHand>
  #clockAheadMs = 0
  #settings = 0
  #trueMs = 0

  constructor({ name, investigation, now }: { name: string; investigation: string; now: () => number }) {
    this.name = name
    this.#investigation = investigation
    this.outbox = new MemoryOutbox({ ledger: this.ledger, device: name })
    const clock = (): number => {
      this.#trueMs = now()
      return this.#trueMs + this.#clockAheadMs
    }
    this.#hand = signingHand({ investigation, device: name, clock })
  }

  get clockAheadMs(): number {
    return this.#clockAheadMs
  }

  set clockAheadMs(ms: number) {
    if (ms !== this.#clockAheadMs) this.#settings += 1
    this.#clockAheadMs = ms
  }

  /** how often its clock was set */
  get clockSettings(): number {
    return this.#settings
  }

  /** What it would show: the record it holds, then what it wrote and has not sent. */
  async state(): Promise<InvestigationState> {
    const links = await this.ledger.read(this.#investigation, ALL)
    const known = new Set(links.map(({ entry }) => entry.id))
    const waiting = (await this.outbox.pending(this.#investigation)).filter(({ refused }) => refused === undefined)
    const own = waiting.map(({ entry }) => entry).filter(({ id }) => !known.has(id))
    return derive(this.#investigation, [...entriesOf(links), ...own])
  }

  async join(): Promise<void> {
    await this.#keep(this.#hand.joined())
  }

  /** Writes an entry if its own rules let it; undefined where they do not. */
  async write<K extends Kind>(kind: K, body: BodyOf<K>, corrects?: Entry['corrects']): Promise<Entry | undefined> {
    const { sequence } = await this.ledger.head(this.#investigation)
    const extra = { seen: sequence, ...(corrects === undefined ? {} : { corrects }) } as Partial<Entry>
    const entry = this.#hand.make(kind, body, extra)
    const checked = checkEntry(await this.state(), entry)
    this.objections = checked.ok ? [] : checked.issues
    if (!checked.ok) return undefined
    await this.#keep(entry)
    return entry
  }

  /** A correction of something nobody wrote: an entry that no server takes, as a program with a fault might write one. */
  async writeStray(): Promise<void> {
    const corrects = { entry: crypto.randomUUID(), reason: 'by mistake' }
    await this.#keep(this.#hand.make('note.written', { text: 'stray', purpose: 'note' }, { corrects }))
  }

  sync(server: ServerPort): Promise<Exchange> {
    return exchange({ investigation: this.#investigation, ledger: this.ledger, outbox: this.outbox, server })
  }

  async #keep(entry: Entry): Promise<void> {
    await this.outbox.hold(entry)
    this.written.push(entry)
    this.wrote.set(entry.id, { trueMs: this.#trueMs, setting: this.#settings })
  }
}
