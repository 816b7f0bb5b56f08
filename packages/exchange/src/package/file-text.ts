/** Bytes as text; undefined where they are no UTF-8. */
export function textOf(bytes: Uint8Array | undefined): string | undefined {
  if (bytes === undefined) return undefined
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    return undefined
  }
}

/** Bytes as JSON; undefined where they are none. */
export function jsonOf(bytes: Uint8Array | undefined): unknown {
  try {
    return JSON.parse(textOf(bytes) ?? '')
  } catch {
    return undefined
  }
}
