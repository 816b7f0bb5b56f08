import type { Draft } from '../form/draft.ts'

/** The value of a draft held as JSON; the text itself where it is none, undefined where it is empty. */
export function jsonOf(draft: Draft | undefined): unknown {
  if (typeof draft !== 'string' || draft.trim() === '') return undefined
  try {
    return JSON.parse(draft)
  } catch {
    return draft
  }
}

export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
