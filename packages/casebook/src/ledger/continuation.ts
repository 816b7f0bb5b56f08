import type { Head, Link } from '../chain/link.ts'
import { LedgerConflict } from './ledger.ts'

/**
 * Decides whether links may be stored after a head: one investigation, unbroken ties, no id twice.
 * Hashes are the business of `verifyChain`; this guards the store against gaps, forks and repeats.
 * @throws LedgerConflict
 */
export function checkContinuation(
  links: readonly Link[],
  { head, has }: { head: Head; has: (id: string) => boolean },
): void {
  let last = head
  const ids = new Set<string>()
  const investigation = links[0]?.entry.investigation
  for (const link of links) {
    const { sequence, previous, hash, entry } = link
    if (entry.investigation !== investigation)
      throw new LedgerConflict(
        `Cannot commit because links of two investigations are mixed: got ${entry.investigation}`,
      )
    if (sequence !== last.sequence + 1 || previous !== last.hash)
      throw new LedgerConflict(`Cannot commit because link ${sequence} does not follow link ${last.sequence}`)
    if (has(entry.id) || ids.has(entry.id))
      throw new LedgerConflict(`Cannot commit because entry ${entry.id} is already in the record`)
    ids.add(entry.id)
    last = { sequence, hash }
  }
}
