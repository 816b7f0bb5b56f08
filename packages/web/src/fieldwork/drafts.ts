/** What is half typed or half timed at one place, as plain text by field. */
export type Draft = Readonly<Record<string, string>>

/** A draft as it is kept, with the moment of its last change (ms), so that of two copies the newer is known. */
export interface KeptDraft {
  readonly at: number
  readonly fields: Draft
}

const PREFIX = 'rillmark.draft.'
const NOTHING: KeptDraft = { at: 0, fields: {} }

/** Where drafts are written at once. */
export interface DraftPlace {
  getItem: (key: string) => string | null
  setItem: (key: string, value: string) => void
}

/** A draft out of its text. Anything unreadable counts as nothing typed. */
export function draftFrom(text: string | null | undefined): KeptDraft {
  try {
    const kept: unknown = JSON.parse(text ?? 'null')
    if (typeof kept !== 'object' || kept === null || !('fields' in kept) || !('at' in kept)) return NOTHING
    const { at, fields } = kept
    if (typeof at !== 'number' || typeof fields !== 'object' || fields === null || Array.isArray(fields)) return NOTHING
    const texts = Object.entries(fields).filter((pair): pair is [string, string] => typeof pair[1] === 'string')
    return { at, fields: Object.fromEntries(texts) }
  } catch {
    return NOTHING
  }
}

export function readDraft(place: DraftPlace, name: string): KeptDraft {
  try {
    return draftFrom(place.getItem(PREFIX + name))
  } catch {
    return NOTHING
  }
}

/** Some fields of a draft changed at a moment; an empty text clears its field. A clock set back never makes a change look older. */
export function changedDraft(before: KeptDraft, { fields, now }: { fields: Draft; now: number }): KeptDraft {
  const left = Object.entries({ ...before.fields, ...fields }).filter(([, text]) => text !== '')
  return { at: Math.max(now, before.at + 1), fields: Object.fromEntries(left) }
}

/** Writes a draft where it is kept at once; false where there is no room. */
export function writeDraft(place: DraftPlace, { name, draft }: { name: string; draft: KeptDraft }): boolean {
  try {
    place.setItem(PREFIX + name, JSON.stringify(draft))
    return true
  } catch {
    return false
  }
}

export interface DraftHandle {
  readonly get: (field: string) => string
  readonly set: (fields: Draft) => void
  readonly clear: () => void
  /** false where this device has no room to keep what is half typed: only the open page holds it */
  readonly kept: boolean
  /** whether both copies were read: before that, what is here may be the older one */
  readonly read: boolean
}
