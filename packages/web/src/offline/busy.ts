const AT_WORK = 'rillmark-at-work'

const reasons = new Map<symbol, string>()
const listeners = new Set<() => void>()
let letLockGo: (() => void) | undefined
let lockOver: Promise<unknown> = Promise.resolve()

/**
 * Keeps a newer version of the app waiting, in every tab of this browser, until the returned function is called: while a stop is being
 * visited, a form that writes is open, a file read in. Calling it twice is harmless; a tab that is closed or crashes lets go by itself.
 */
export function holdUpdates(reason: string): () => void {
  const held = Symbol(reason)
  reasons.set(held, reason)
  if (reasons.size === 1) takeLock()
  tell()
  return () => {
    if (!reasons.delete(held)) return
    if (reasons.size === 0) letLockGo?.()
    tell()
  }
}

/** Why a newer version waits in this tab; empty where nothing keeps it. */
export function heldBecause(): readonly string[] {
  return [...reasons.values()]
}

/** Calls back when a hold begins or ends in this tab. Returns how to stop. */
export function onHold(listener: () => void): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}

/** Whether any tab of this browser is at work; where the browser has no locks, whether this one is. */
export async function anyTabAtWork(): Promise<boolean> {
  const { locks } = navigator as { locks?: LockManager }
  if (locks === undefined || reasons.size > 0) return reasons.size > 0
  await lockOver
  return locks.request(AT_WORK, { ifAvailable: true }, async (lock) => lock === null)
}

/** Shared, so that several tabs may be at work; whoever asks for it alone learns that one is. */
function takeLock(): void {
  const { locks } = navigator as { locks?: LockManager }
  const over = new Promise<void>((resolve) => {
    letLockGo = resolve
  })
  lockOver = locks?.request(AT_WORK, { mode: 'shared' }, () => over).catch(() => undefined) ?? over
}

function tell(): void {
  for (const listener of listeners) listener()
}
