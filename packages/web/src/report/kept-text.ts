import { useCallback, useState } from 'react'

/** What is being typed in one section, kept on this device with every keystroke until it is written into the record. */
export function useKeptText(name: string, recorded: string): readonly [string, (text: string) => void] {
  const key = `rillmark.draft.report.${name}`
  const [draft, setDraft] = useState<string | undefined>(() => read(key))
  const set = useCallback(
    (text: string) => {
      const open = text === recorded ? undefined : text
      setDraft(open)
      write(key, open)
    },
    [key, recorded],
  )
  return [draft ?? recorded, set]
}

function read(key: string): string | undefined {
  try {
    return localStorage.getItem(key) ?? undefined
  } catch {
    return undefined
  }
}

function write(key: string, text: string | undefined): void {
  try {
    if (text === undefined) localStorage.removeItem(key)
    else localStorage.setItem(key, text)
  } catch {
    // A browser that forbids it keeps the text while the window shows it.
  }
}
