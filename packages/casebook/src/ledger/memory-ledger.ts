import { emptyHead, type Head, headAfter, type Link } from '../chain/link.ts'
import { checkContinuation } from './continuation.ts'
import type { LedgerCopy } from './ledger.ts'

/** A ledger in memory: for tests, and for reading a package without storing it. */
export class MemoryLedger implements LedgerCopy {
  readonly #links = new Map<string, Link[]>()
  readonly #sequences = new Map<string, Map<string, number>>()

  async commit(links: readonly Link[]): Promise<void> {
    const investigation = links[0]?.entry.investigation
    if (investigation === undefined) return
    const sequences = this.#sequences.get(investigation) ?? new Map<string, number>()
    const kept = this.#links.get(investigation) ?? []
    const head = headAfter(emptyHead(investigation), kept)
    checkContinuation(links, { head, has: (id) => sequences.has(id) })
    for (const link of links) {
      kept.push(link)
      sequences.set(link.entry.id, link.sequence)
    }
    this.#links.set(investigation, kept)
    this.#sequences.set(investigation, sequences)
  }

  async read(investigation: string, { after, limit }: { after: number; limit: number }): Promise<Link[]> {
    return (this.#links.get(investigation) ?? []).slice(after, after + limit)
  }

  async head(investigation: string): Promise<Head> {
    return headAfter(emptyHead(investigation), this.#links.get(investigation) ?? [])
  }

  async sequencesOf(investigation: string, ids: readonly string[]): Promise<Map<string, number>> {
    const kept = this.#sequences.get(investigation) ?? new Map<string, number>()
    return new Map(ids.flatMap((id) => (kept.has(id) ? [[id, kept.get(id) ?? 0] as const] : [])))
  }

  async numbersOf(
    investigation: string,
    { devices, upTo }: { devices: readonly string[]; upTo: number },
  ): Promise<Map<string, number>> {
    const highest = new Map<string, number>()
    for (const { entry } of (this.#links.get(investigation) ?? []).slice(0, upTo))
      if (devices.includes(entry.device))
        highest.set(entry.device, Math.max(highest.get(entry.device) ?? 0, entry.deviceSequence))
    return highest
  }

  async investigations(): Promise<string[]> {
    return [...this.#links.keys()].sort()
  }

  async forget(investigation: string): Promise<void> {
    this.#links.delete(investigation)
    this.#sequences.delete(investigation)
  }

  async close(): Promise<void> {}
}
