import type { EntryOf } from '../entry/entry.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { Kind } from '../entry/kinds.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** What a rule sees: the state before the entry. When the entry amends another, `amends` is the id of that one's first version. */
export interface RuleContext {
  readonly state: InvestigationState
  readonly amends?: string | undefined
}

/** Says what speaks against an entry; an empty list lets it in. Paths start at `body`. */
export type Rule<K extends Kind> = (entry: EntryOf<K>, context: RuleContext) => readonly Issue[]

/** A step's rules by kind of entry. */
export type Rules = { readonly [K in Kind]?: readonly Rule<K>[] }
