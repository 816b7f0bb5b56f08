import type { Entry } from '../entry/entry.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { Ledger, Outbox, Pending } from './ledger.ts'

/** The copy of the record this device holds: its own confirmed entries count when the next number is given out. */
export interface Replica {
  readonly ledger: Ledger
  readonly device: string
}

/** An outbox in memory: for tests and scripts. */
export class MemoryOutbox implements Outbox {
  readonly #pending = new Map<string, Pending>()
  readonly #last = new Map<string, number>()
  readonly #replica: Replica

  constructor(replica: Replica) {
    this.#replica = replica
  }

  hold(entry: Entry): Promise<void> {
    return this.holdAll([entry])
  }

  async holdAll(entries: readonly Entry[]): Promise<void> {
    for (const entry of entries) {
      if (this.#pending.has(entry.id)) continue
      this.#pending.set(entry.id, { entry })
      this.#last.set(entry.investigation, Math.max(entry.deviceSequence, this.#last.get(entry.investigation) ?? 0))
    }
  }

  async pending(investigation: string): Promise<Pending[]> {
    return [...this.#pending.values()]
      .filter(({ entry }) => entry.investigation === investigation)
      .sort((a, b) => a.entry.deviceSequence - b.entry.deviceSequence)
  }

  async refuse(id: string, issues: readonly Issue[]): Promise<void> {
    const kept = this.#pending.get(id)
    if (kept !== undefined) this.#pending.set(id, { ...kept, refused: issues })
  }

  async release(ids: readonly string[]): Promise<void> {
    for (const id of ids) this.#pending.delete(id)
  }

  async nextDeviceSequence(investigation: string): Promise<number> {
    const { ledger, device } = this.#replica
    const links = await ledger.read(investigation, { after: 0, limit: Number.MAX_SAFE_INTEGER })
    const own = links.findLast(({ entry }) => entry.device === device)?.entry.deviceSequence ?? 0
    return Math.max(own, this.#last.get(investigation) ?? 0) + 1
  }

  async investigations(): Promise<string[]> {
    return [...new Set([...this.#pending.values()].map(({ entry }) => entry.investigation))].sort()
  }
}
