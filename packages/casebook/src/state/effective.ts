import type { Entry } from '../entry/entry.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'

/** An entry as it counts today: the first version's place, time and author with the latest version's body. */
export interface EffectiveEntry<K extends Kind = Kind> {
  /** id of the first version: the name by which others point at it */
  readonly id: string
  readonly kind: K
  readonly body: BodyOf<K>
  readonly instant: string
  readonly offset: string
  readonly author: string
  readonly device: string
  /** how many amendments it has had; all versions stay in the record */
  readonly amendments: number
}

/** What a step does with its own kinds: collect them into its own state. Views across steps are computed from the states. */
export type Appliers<S> = { readonly [K in Kind]?: (state: S, entry: EffectiveEntry<K>) => void }

/** The entry that counts: the first version's envelope with the body of the latest of its amendments, if it has any. */
export function effective<K extends Kind>(
  first: Entry & { kind: K },
  amendments: readonly Entry[] = [],
): EffectiveEntry<K> {
  const { id, kind, instant, offset, author, device } = first
  const body = (amendments.at(-1) ?? first).body as BodyOf<K>
  return { id, kind, body, instant, offset, author, device, amendments: amendments.length }
}
