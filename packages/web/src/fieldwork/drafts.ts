import { useCallback, useState } from 'react'

/** What is half typed or half timed at one place, as plain text by field. */
export type Draft = Readonly<Record<string, string>>

const PREFIX = 'rillmark.draft.'

/** Where drafts are written; a browser without storage keeps them only while the page is open. */
export interface DraftPlace {
  getItem: (key: string) => string | null
  setItem: (key: string, value: string) => void
  removeItem: (key: string) => void
}

/**
 * Reads the draft of one place: what survives a reload, a crash or a dead battery before it is an entry. Anything unreadable counts as
 * nothing typed.
 */
export function readDraft(place: DraftPlace, name: string): Draft {
  try {
    const kept: unknown = JSON.parse(place.getItem(PREFIX + name) ?? '{}')
    if (typeof kept !== 'object' || kept === null || Array.isArray(kept)) return {}
    return Object.fromEntries(
      Object.entries(kept).filter((pair): pair is [string, string] => typeof pair[1] === 'string'),
    )
  } catch {
    return {}
  }
}

/** Writes some fields of a draft at once; an empty text clears its field. Gives back the draft as it is now. */
export function writeDraft(place: DraftPlace, { name, fields }: { name: string; fields: Draft }): Draft {
  const next = Object.fromEntries(
    Object.entries({ ...readDraft(place, name), ...fields }).filter(([, text]) => text !== ''),
  )
  try {
    if (Object.keys(next).length === 0) place.removeItem(PREFIX + name)
    else place.setItem(PREFIX + name, JSON.stringify(next))
  } catch {
    return next
  }
  return next
}

export interface DraftHandle {
  readonly get: (field: string) => string
  readonly set: (fields: Draft) => void
  readonly clear: () => void
}

/** The draft of one place on this screen, written with every keystroke. The component must be keyed by `name`. */
export function useDraft(name: string): DraftHandle {
  const [draft, setDraft] = useState(() => readDraft(localStorage, name))
  const set = useCallback(
    (fields: Draft) => {
      const kept = writeDraft(localStorage, { name, fields })
      setDraft((now) => ({ ...now, ...kept, ...fields }))
    },
    [name],
  )
  const clear = useCallback(() => {
    writeDraft(localStorage, {
      name,
      fields: Object.fromEntries(Object.keys(readDraft(localStorage, name)).map((key) => [key, ''])),
    })
    setDraft({})
  }, [name])
  return { get: (field) => draft[field] ?? '', set, clear }
}
