import type { Entry } from './entry.ts'
import type { BodyOf, Kind } from './kinds.ts'

/** Where and by whom an entry is made: passed in, never read from the surroundings. */
export interface Desk {
  readonly investigation: string
  readonly author: string
  readonly device: string
  readonly deviceSequence: number
  readonly now: { readonly instant: string; readonly offset: string }
  readonly newId: () => string
  /** sequence of the last link held here */
  readonly seen?: number | undefined
}

/** What a person proposes to write. */
export interface Proposal<K extends Kind = Kind> {
  readonly kind: K
  readonly body: BodyOf<K>
  readonly corrects?: { readonly entry: string; readonly reason: string }
}

/** Puts a proposal into its envelope. Its shape and the rules are checked afterwards by `checkEntry`. */
export function draftEntry(desk: Desk, { kind, body, corrects }: Proposal): Entry {
  const { investigation, author, device, deviceSequence, now, newId, seen } = desk
  const known = seen === undefined ? {} : { seen }
  const envelope = { kind, id: newId(), investigation, ...now, author, device, deviceSequence, ...known, body }
  return (corrects === undefined ? envelope : { ...envelope, corrects }) as Entry
}
