import { useCallback, useState } from 'react'

/** What is being typed outlives leaving the screen and a reload of this window, and goes with the window. */
export function useKeptDraft<T>(key: string, first: () => T): readonly [T, (next: T) => void, () => void] {
  const name = `rillmark.draft.${key}`
  const [draft, setDraft] = useState<T>(() => read<T>(name) ?? first())
  const set = useCallback(
    (next: T) => {
      setDraft(next)
      write(name, next)
    },
    [name],
  )
  const drop = useCallback(() => write(name, undefined), [name])
  return [draft, set, drop]
}

function read<T>(name: string): T | undefined {
  try {
    const text = sessionStorage.getItem(name)
    return text === null ? undefined : (JSON.parse(text) as T)
  } catch {
    return undefined
  }
}

function write(name: string, value: unknown): void {
  try {
    if (value === undefined) sessionStorage.removeItem(name)
    else sessionStorage.setItem(name, JSON.stringify(value))
  } catch {
    // A browser that forbids it keeps the draft while the window shows it.
  }
}
