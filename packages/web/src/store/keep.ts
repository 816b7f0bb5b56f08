/** Reads a small preference kept on this device; undefined where there is none or the browser forbids it. */
export function readKept(key: string): unknown {
  try {
    const text = localStorage.getItem(`rillmark.${key}`)
    return text === null ? undefined : JSON.parse(text)
  } catch {
    return undefined
  }
}

/** Keeps a small preference on this device; false where the browser forbids it. Never for anything of an investigation. */
export function keep(key: string, value: unknown): boolean {
  try {
    localStorage.setItem(`rillmark.${key}`, JSON.stringify(value))
    return true
  } catch {
    return false
  }
}
