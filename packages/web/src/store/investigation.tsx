import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { Proposal } from '@rillmark/casebook/entry/draft.ts'
import type { BodyOf, Kind } from '@rillmark/casebook/entry/kinds.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { createContext, type ReactNode, useCallback, useContext, useMemo, useSyncExternalStore } from 'react'
import { useAuthor } from './author.tsx'
import type { InvestigationStore, Proposed, ProposedAll, ProposeOptions } from './investigation-store.ts'
import type { SyncState } from './ports.ts'

export interface Investigation {
  readonly id: string
  /** The id of this device, as its entries name it. */
  readonly device: string
  /** Derived from the record. It is extended in place: let memos depend on `version`, never on `state`. */
  readonly state: InvestigationState
  readonly version: number
  /** Writes one entry under the present author's name, or says everything that speaks against it. */
  readonly propose: <K extends Kind>(kind: K, body: BodyOf<K>, options?: ProposeOptions) => Promise<Proposed>
  /** Writes entries that belong together, all or none. */
  readonly proposeAll: (proposals: readonly Proposal[]) => Promise<ProposedAll>
  readonly sync: SyncState
}

/** Nothing is written by nobody. */
const NO_NAME = issue('author', { expected: 'the name of who writes', received: undefined })

function notKept(error: unknown): Issue {
  return issue('', { expected: 'to be kept on this device', received: String(error) })
}

const Context = createContext<InvestigationStore | undefined>(undefined)

export function InvestigationProvider(props: {
  readonly store: InvestigationStore
  readonly children: ReactNode
}): ReactNode {
  return <Context value={props.store}>{props.children}</Context>
}

/** The investigation this screen belongs to. */
export function useInvestigation(): Investigation {
  const store = useContext(Context)
  if (store === undefined) throw new TypeError('Cannot read an investigation because this screen is outside one')
  const { ask } = useAuthor()
  const { state, version, sync } = useSyncExternalStore(store.subscribe, store.snapshot)
  const propose = useCallback<Investigation['propose']>(
    async (kind, body, options) => {
      const author = await ask()
      if (author === '') return { ok: false, issues: [NO_NAME] }
      try {
        return await store.propose({ kind, body, author, ...options })
      } catch (error) {
        return { ok: false, issues: [notKept(error)] }
      }
    },
    [store, ask],
  )
  const proposeAll = useCallback<Investigation['proposeAll']>(
    async (proposals) => {
      const author = await ask()
      if (author === '') return { ok: false, refused: [{ issues: [NO_NAME] }] }
      try {
        return await store.proposeAll(proposals, { author })
      } catch (error) {
        return { ok: false, refused: [{ issues: [notKept(error)] }] }
      }
    },
    [store, ask],
  )
  return useMemo(
    () => ({ id: store.id, device: store.device, state, version, propose, proposeAll, sync }),
    [store, state, version, propose, proposeAll, sync],
  )
}

/** Something computed from the state, computed again only when the record changes. `compute` must be a function of the state alone. */
export function useDerived<T>(compute: (state: InvestigationState) => T): T {
  const { state, version } = useInvestigation()
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  return useMemo(() => compute(state), [version, compute])
}
