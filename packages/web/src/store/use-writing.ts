import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { BodyOf, Kind } from '@rillmark/casebook/entry/kinds.ts'
import { useState } from 'react'
import { useInvestigation } from './investigation.tsx'
import type { ProposeOptions } from './investigation-store.ts'

export interface Writing {
  /** What speaks against the last thing written. */
  readonly issues: readonly Issue[]
  readonly busy: boolean
  /** Writes one entry; says whether it went in. */
  readonly write: <K extends Kind>(kind: K, body: BodyOf<K>, options?: ProposeOptions) => Promise<boolean>
  /** Says what a form found before anything was written. */
  readonly object: (issues: readonly Issue[]) => void
}

/** Writing is usually done sooner than anyone could read that it is at work. */
const SLOW_MS = 300

/** For a form that writes entries: what is wrong, and whether it is at work. */
export function useWriting(): Writing {
  const { propose } = useInvestigation()
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const [busy, setBusy] = useState(false)
  const write: Writing['write'] = async (kind, body, options) => {
    const slow = setTimeout(() => setBusy(true), SLOW_MS)
    try {
      const proposed = await propose(kind, body, options)
      setIssues(proposed.ok ? [] : proposed.issues)
      return proposed.ok
    } catch (error) {
      setIssues([issue('', { expected: 'to be kept on this device', received: String(error) })])
      return false
    } finally {
      clearTimeout(slow)
      setBusy(false)
    }
  }
  return { issues, busy, write, object: setIssues }
}
