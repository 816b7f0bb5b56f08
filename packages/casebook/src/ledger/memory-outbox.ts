import type { Entry } from '../entry/entry.ts'
import type { Issue } from '../entry/issue.ts'
import type { Outbox, Pending } from './ledger.ts'

/** An outbox in memory: for tests and scripts. */
export class MemoryOutbox implements Outbox {
  readonly #pending = new Map<string, Pending>()
  readonly #last = new Map<string, number>()

  async hold(entry: Entry): Promise<void> {
    if (this.#pending.has(entry.id)) return
    this.#pending.set(entry.id, { entry })
    this.#last.set(entry.investigation, Math.max(entry.deviceSequence, this.#last.get(entry.investigation) ?? 0))
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
    return (this.#last.get(investigation) ?? 0) + 1
  }
}
