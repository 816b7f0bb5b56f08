import type { Proposal } from '@rillmark/casebook/entry/draft.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'

/** Where the entries of this device stand, in words for the top bar. */
export interface SyncState {
  /** 'All 214 entries are on the server', '3 entries wait on this device' … */
  readonly words: string
  readonly pending: number
  /** how far the clock of this device is off, in words; absent where it is right */
  readonly clock?: string
  /** the first entry of the record that does not hold, and why: its signature, or its place in the chain */
  readonly unsound?: { readonly sequence: number; readonly reason: string }
  /** Entries the server would not take; each stays here with the reason until a person settles it. */
  readonly refused: readonly { readonly entry: Entry; readonly issues: readonly Issue[] }[]
}

/** What a store needs from the device: the ledger and outbox, the clock, ids and the sync state. */
export interface InvestigationPorts {
  /** Keeps a new entry; durable when the promise resolves. */
  readonly keep: (entry: Entry) => Promise<void>
  /** Keeps several new entries, all or none; refused ones they are written for (`instead`, by id) leave with the same stroke. */
  readonly keepAll: (entries: readonly Entry[], instead?: readonly string[]) => Promise<void>
  readonly nextDeviceSequence: () => Promise<number>
  /** Runs one proposal while no other tab of this device writes, after taking up what those wrote; at once where there is no other. */
  readonly alone?: <T>(work: () => Promise<T>) => Promise<T>
  /** sequence of the last link this device holds: what a writer here can know */
  readonly seen?: () => number
  /** what this device says of itself before the first it writes; undefined where it has no key */
  readonly joining?: (author: string) => Promise<Proposal<'device.joined'> | undefined>
  /** signs an entry about to be kept; gives it back as it is where this device has no key */
  readonly sign?: (entry: Entry) => Promise<Entry>
  /** seconds this device's clock is ahead, as last measured: entries are judged and shown by the right clock, and kept as written */
  readonly clockAheadS?: () => number
  readonly device: string
  readonly now: () => { readonly instant: string; readonly offset: string }
  readonly newId: () => string
}

/** An investigation open on this device, as the ledger side provides it. */
export interface OpenedInvestigation {
  readonly id: string
  readonly entries: readonly Entry[]
  readonly ports: InvestigationPorts
  readonly sync: SyncState
}
