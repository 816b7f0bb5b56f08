import type { Entry } from '../entry/entry.ts'
import type { RecordState } from '../record/state.ts'
import { wordPlaces, wordsIn } from './word-places.ts'

/** A word that more accounts than this have in common tells nothing of what they are about. Our own choice. */
const MOST_IN_COMMON = 40

/**
 * Of these accounts those that are likely about the same thing as an entry, in their order: they are, or correct, the entry it corrects, or
 * have a rare word of it in their body (a code, a label, a stop). A guess that saves work: whoever uses it must try whether it holds.
 *
 * @param record that most of the accounts are entries of
 */
export function relatedTo(
  entry: Entry,
  { accounts, record }: { readonly accounts: readonly Entry[]; readonly record: RecordState },
): readonly Entry[] {
  const asked = new Set(accounts)
  const related = new Set<Entry>(accounts.filter((account) => isSameTarget(entry, account)))
  const own = new Set(record.entries)
  const others = accounts.filter((account) => !own.has(account))
  const places = wordPlaces(record)
  for (const word of new Set(wordsIn(entry.body))) {
    const found = others.filter(({ body }) => wordsIn(body).includes(word))
    // from the end: what the writer had not seen came last
    const at = places.get(word) ?? []
    for (let back = at.length - 1; back >= 0 && found.length <= MOST_IN_COMMON; back -= 1) {
      const account = record.entries[at[back] ?? -1]
      if (account !== undefined && asked.has(account)) found.push(account)
    }
    if (found.length <= MOST_IN_COMMON) for (const each of found) related.add(each)
  }
  return accounts.filter((account) => related.has(account))
}

function isSameTarget(entry: Entry, account: Entry): boolean {
  const [own, other] = [entry.corrects?.entry, account.corrects?.entry]
  return own !== undefined && (own === other || own === account.id)
}
