/** A value outside any screen that screens follow. */
export interface Signal<T> {
  readonly get: () => T
  readonly set: (next: T) => void
  readonly subscribe: (listener: () => void) => () => void
}

export function makeSignal<T>(first: T): Signal<T> {
  const listeners = new Set<() => void>()
  let value = first
  return {
    get: () => value,
    set: (next) => {
      if (Object.is(next, value)) return
      value = next
      for (const listener of listeners) listener()
    },
    subscribe: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}
