import { type Issue, issueLine } from '@rillmark/science/catalogue/issue.ts'
import type { Proposal } from '@rillmark/casebook/entry/draft.ts'
import type { BodyOf, Kind } from '@rillmark/casebook/entry/kinds.ts'
import type { GuidedStep, VisitPlan } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import { createContext, type ReactNode, useCallback, useContext, useMemo, useState } from 'react'
import { Note } from '../kit/Note.tsx'
import { useInvestigation } from '../store/investigation.tsx'

export interface StopTools {
  readonly at: { readonly round: string; readonly stop: string }
  readonly plan: VisitPlan
  /** opens the choice of reasons for what can't be done */
  readonly cant: () => void
  readonly more: () => void
}

const Context = createContext<StopTools | undefined>(undefined)

export function StopToolsProvider({
  tools,
  children,
}: {
  readonly tools: StopTools
  readonly children: ReactNode
}): ReactNode {
  return <Context value={tools}>{children}</Context>
}

/** The stop at hand. */
export function useStop(): StopTools {
  const tools = useContext(Context)
  if (tools === undefined) throw new TypeError('Cannot read the stop because this part is outside one')
  return tools
}

export interface Writing {
  readonly busy: boolean
  readonly issues: readonly Issue[]
  /** Writes one entry; true when it is kept. What speaks against it is shown. */
  readonly write: <K extends Kind>(kind: K, body: BodyOf<K>) => Promise<boolean>
  /** Writes entries that belong together; true when all are kept, else none is. */
  readonly writeAll: (proposals: readonly Proposal[]) => Promise<boolean>
  /** Forgets what spoke against the last one, once something else stands there. */
  readonly forget: () => void
}

/** Writing entries from a step: one act at a time, with what speaks against the last one. */
export function useWriting(): Writing {
  const { propose, proposeAll } = useInvestigation()
  const [busy, setBusy] = useState(false)
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const write = useCallback<Writing['write']>(
    async (kind, body) => {
      setBusy(true)
      try {
        const proposed = await propose(kind, body)
        setIssues(proposed.ok ? [] : proposed.issues)
        return proposed.ok
      } finally {
        setBusy(false)
      }
    },
    [propose],
  )
  const writeAll = useCallback<Writing['writeAll']>(
    async (proposals) => {
      setBusy(true)
      try {
        const proposed = await proposeAll(proposals)
        setIssues(proposed.ok ? [] : proposed.refused.flatMap((each) => each.issues))
        return proposed.ok
      } finally {
        setBusy(false)
      }
    },
    [proposeAll],
  )
  const forget = useCallback(() => setIssues([]), [])
  return useMemo(() => ({ busy, issues, write, writeAll, forget }), [busy, issues, write, writeAll, forget])
}

/** Why the record did not take it, in lines a person in a corridor can read. */
export function NotKept({ issues }: { readonly issues: readonly Issue[] }): ReactNode {
  if (issues.length === 0) return null
  return (
    <Note kind="bad">
      {issues.map((found) => (
        <span key={issueLine(found)} className="field-line">
          Needed: {found.expected}. Received: {found.received}.
        </span>
      ))}
    </Note>
  )
}

/** What an entry says of the step it belongs to. */
export function stepNames({ procedure, name, sample }: GuidedStep): {
  procedure: string
  step: string
  label?: string
} {
  const label = sample === undefined ? undefined : (sample.label ?? sample.sampleKind)
  return { procedure, step: name, ...(label === undefined ? {} : { label }) }
}
