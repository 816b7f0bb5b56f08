import { useEffect, useState } from 'react'
import { type GroupDraft, groupDraft } from '../form/draft.ts'
import type { NamedField } from '../form/field-spec.ts'
import { draftKey, figuresLeft } from './figures-left.ts'

/** What is typed into a calculator, or was brought to it from elsewhere; it outlives going elsewhere and reloading, as long as this tab is open. */
export function useKeptDraft(id: string, fields: readonly NamedField[]): [GroupDraft, (next: GroupDraft) => void] {
  const key = draftKey(id)
  const [draft, setDraft] = useState(() => ({ ...groupDraft(fields, figuresLeft(id)), ...readDraft(key) }))
  const change = (next: GroupDraft): void => {
    setDraft(next)
    try {
      sessionStorage.setItem(key, JSON.stringify(next))
    } catch {
      // without room it still stands on this screen
    }
  }
  return [draft, change]
}

function readDraft(key: string): GroupDraft {
  try {
    const kept: unknown = JSON.parse(sessionStorage.getItem(key) ?? '{}')
    return typeof kept === 'object' && kept !== null && !Array.isArray(kept) ? (kept as GroupDraft) : {}
  } catch {
    return {}
  }
}

const SETTLE_MS = 120

/** A value once it has stood still for a moment, so that half-typed numbers are not judged or read aloud. */
export function useSettled<T>(value: T): T {
  const [settled, setSettled] = useState(value)
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), SETTLE_MS)
    return () => clearTimeout(timer)
  }, [value])
  return settled
}
