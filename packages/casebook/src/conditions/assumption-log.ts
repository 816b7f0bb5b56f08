import type { Assumption } from './conditions.ts'

/** How many parts an assumption names; the rest is only counted. */
const NAMED_PARTS = 5

export type Noted = Omit<Assumption, 'count' | 'parts'>

/** Gathers what was filled in, each figure once, with the parts it was filled in for. */
export class AssumptionLog {
  readonly #kept = new Map<string, Noted & { count: number; parts: string[] }>()

  /** @param part id of the component or pipe; left out where it is about the whole building */
  note(assumption: Noted, part?: string): void {
    const kept = this.#kept.get(assumption.id) ?? this.#keep(assumption)
    kept.count++
    if (part !== undefined && kept.parts.length < NAMED_PARTS) kept.parts.push(part)
  }

  #keep(assumption: Noted): Noted & { count: number; parts: string[] } {
    const kept = { ...assumption, count: 0, parts: [] }
    this.#kept.set(assumption.id, kept)
    return kept
  }

  /** By how many parts it is about, then by name, so that the order of the file's lists never matters. */
  list(): Assumption[] {
    return [...this.#kept.values()].sort((a, b) => b.count - a.count || (a.id < b.id ? -1 : 1))
  }
}
