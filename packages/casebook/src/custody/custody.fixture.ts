import type { Entry } from '../entry/entry.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive, extend } from '../state/derive.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { entryMaker } from '../testing/entry-maker.ts'

export const SAMPLER = { name: 'T. Okoro', role: 'sampler' }
export const COURIER = { name: 'J. Brandt', role: 'courier' }
export const LABORATORY = { name: 'M. Aydin', role: 'laboratory reception' }

type Corrects = { entry: string; reason: string }

/** A record under test: `given` writes past the rules, `write` by them, `pathsOf` says what a rule holds against an entry. */
export class Bench {
  readonly #makers = new Map<string, ReturnType<typeof entryMaker>>()
  state: InvestigationState = derive('marram-house', [])

  make<K extends Kind>(kind: K, body: BodyOf<K>, more: { corrects?: Corrects; device?: string } = {}): Entry {
    const { corrects, device = 'desk-1' } = more
    const maker = this.#makers.get(device) ?? entryMaker('marram-house', { device })
    this.#makers.set(device, maker)
    return maker.make(kind, body, corrects) as Entry
  }

  given(...entries: readonly Entry[]): void {
    this.state = extend(this.state, entries)
  }

  collect(...labels: readonly string[]): void {
    for (const label of labels)
      this.given(
        this.make('sample.collected', {
          round: 'R1',
          stop: `S ${label}`,
          label,
          sampleKind: 'bulk-hot',
          volumeMl: 1000,
          filter: 'none',
        }),
      )
  }

  write<K extends Kind>(kind: K, body: BodyOf<K>, more: { corrects?: Corrects; device?: string } = {}): Entry {
    const checked = checkEntry(this.state, this.make(kind, body, more))
    if (!checked.ok) throw new Error(JSON.stringify(checked.issues))
    this.given(checked.entry)
    return checked.entry
  }

  pathsOf<K extends Kind>(kind: K, body: BodyOf<K>, more: { corrects?: Corrects; device?: string } = {}): string[] {
    const checked = checkEntry(this.state, this.make(kind, body, more))
    return checked.ok ? [] : checked.issues.map(({ path }) => path)
  }

  /** A box with these samples in it. */
  box(consignment: string, ...labels: readonly string[]): void {
    this.write('consignment.opened', { consignment, container: 'cooler' })
    for (const label of labels) this.write('sample.packed', { consignment, label })
  }
}
