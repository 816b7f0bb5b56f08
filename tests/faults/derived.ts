import { isDeepStrictEqual } from 'node:util'
import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import type { Ledger } from '@rillmark/casebook/ledger/ledger.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'

const ALL = { after: 0, limit: 1_000_000 }

/** What a copy of a record comes to, derived from nothing but its links. */
export async function stateOf(ledger: Ledger, investigation: string): Promise<InvestigationState> {
  return derive(investigation, entriesOf(await ledger.read(investigation, ALL)))
}

/** Whether all copies come to the same. */
export async function agree(ledgers: readonly Ledger[], investigation: string): Promise<boolean> {
  const [first, ...others] = await Promise.all(ledgers.map((each) => stateOf(each, investigation)))
  return others.every((each) => isDeepStrictEqual(each, first))
}
