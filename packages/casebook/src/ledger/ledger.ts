import type { Head, Link } from '../chain/link.ts'
import type { Entry } from '../entry/entry.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'

/**
 * Where links are kept, for good. A ledger stores and reads; it decides nothing. Every implementation passes the same contract suite
 * (`ledger-contract.ts`).
 */
export interface Ledger {
  /**
   * Stores links that continue the record of one investigation; all or none, durable when the promise resolves.
   * @throws LedgerConflict when the first link does not follow the head, or an id is already there
   */
  commit(links: readonly Link[]): Promise<void>
  /** Links with a sequence greater than `after`, in order, at most `limit` of them. */
  read(investigation: string, range: { after: number; limit: number }): Promise<Link[]>
  head(investigation: string): Promise<Head>
  /** The sequence under which each of these ids is kept; ids not kept are absent. */
  sequencesOf(investigation: string, ids: readonly string[]): Promise<Map<string, number>>
  investigations(): Promise<string[]>
  /** Removes one investigation's copy: for a failed import or a replica that is no longer wanted. */
  forget(investigation: string): Promise<void>
  close(): Promise<void>
}

/** A copy of records that goes on with what a server gives out. */
export interface LedgerCopy extends Ledger {
  /** The highest number of each of these devices among the links up to a sequence; devices that wrote none are absent. */
  numbersOf(
    investigation: string,
    asked: { readonly devices: readonly string[]; readonly upTo: number },
  ): Promise<Map<string, number>>
}

/** The links offered do not continue what the ledger holds. */
export class LedgerConflict extends Error {
  override readonly name = 'LedgerConflict'
}

/** An entry written on this device and not yet confirmed by the server, or refused by it. */
export interface Pending {
  readonly entry: Entry
  readonly refused?: readonly Issue[]
}

/** Entries made here that wait for the server. Nothing leaves it before the server has the entry or a person settles a refusal. */
export interface Outbox {
  /** Keeps an entry; durable when the promise resolves. Keeping the same id again is harmless. */
  hold(entry: Entry): Promise<void>
  /** Keeps several entries, all or none; durable when the promise resolves. */
  holdAll(entries: readonly Entry[]): Promise<void>
  /** In the order of the device sequence. */
  pending(investigation: string): Promise<Pending[]>
  refuse(id: string, issues: readonly Issue[]): Promise<void>
  release(ids: readonly string[]): Promise<void>
  /** The next number of this device in this investigation: after everything held here, ever, and everything of its own in the record. */
  nextDeviceSequence(investigation: string): Promise<number>
  /** The investigations that have entries here. */
  investigations(): Promise<string[]>
}
