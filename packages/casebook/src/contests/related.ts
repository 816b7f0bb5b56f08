import type { Entry } from '../entry/entry.ts'

/** A word that more accounts than this have in common tells nothing of what they are about. Our own choice. */
const MOST_IN_COMMON = 40

/**
 * Of these accounts those that are likely about the same thing as an entry, in their order: they are, or correct, the entry it corrects, or
 * have a rare word of it in their body (a code, a label, a stop). A guess that saves work: whoever uses it must try whether it holds.
 */
export function relatedTo(entry: Entry, accounts: readonly Entry[]): readonly Entry[] {
  const words = new Set(wordsIn(entry.body))
  const related = new Set<Entry>()
  const having = new Map<string, Entry[]>()
  for (const account of accounts) {
    if (isSameTarget(entry, account)) related.add(account)
    for (const word of new Set(wordsIn(account.body)))
      if (words.has(word)) having.set(word, [...(having.get(word) ?? []).slice(-MOST_IN_COMMON), account])
  }
  for (const found of having.values()) if (found.length <= MOST_IN_COMMON) for (const each of found) related.add(each)
  return accounts.filter((account) => related.has(account))
}

function isSameTarget(entry: Entry, account: Entry): boolean {
  const [own, other] = [entry.corrects?.entry, account.corrects?.entry]
  return own !== undefined && (own === other || own === account.id)
}

function wordsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value]
  if (typeof value !== 'object' || value === null) return []
  return Object.values(value).flatMap(wordsIn)
}
