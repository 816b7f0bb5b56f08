import { holdReserve } from './reserve.ts'
import type { Room } from './room.ts'

const EVERY_MS = 60_000

/** How much is kept here and how much more fits; undefined where the browser does not say. */
export async function roomHere(): Promise<Room | undefined> {
  const { storage } = navigator as { storage?: StorageManager }
  try {
    const { usage, quota } = (await storage?.estimate()) ?? {}
    if (usage === undefined || quota === undefined) return undefined
    return { usedBytes: usage, leftBytes: Math.max(0, quota - usage), reserved: await reserved() }
  } catch {
    return undefined
  }
}

/** Held back only where the app itself is on the device: there it is meant to be worked with for days. */
function reserved(): Promise<boolean | undefined> {
  const { serviceWorker } = navigator as { serviceWorker?: ServiceWorkerContainer }
  return (serviceWorker?.controller ?? null) === null ? Promise.resolve(undefined) : holdReserve()
}

/** Whether the browser has promised not to clear what is kept here when the device runs short; undefined where it does not say. */
export async function isPersistent(): Promise<boolean | undefined> {
  const { storage } = navigator as { storage?: StorageManager }
  return storage?.persisted?.().catch(() => undefined)
}

/**
 * Asks for that promise, at an act that shows why: keeping an investigation here, joining a server, starting an investigation. Some
 * browsers ask the person, others decide by themselves.
 */
export async function askToPersist(): Promise<boolean | undefined> {
  const { storage } = navigator as { storage?: StorageManager }
  if ((await isPersistent()) === true) return true
  return storage?.persist?.().catch(() => undefined)
}

/** Looks at the room now, every minute, and when the page is seen again. Returns how to stop. */
export function watchRoom(tell: (room: Room | undefined) => void): () => void {
  const look = (): void => {
    if (document.visibilityState === 'visible') void roomHere().then(tell)
  }
  const timer = setInterval(look, EVERY_MS)
  document.addEventListener('visibilitychange', look)
  addEventListener(LOOK_AGAIN, look)
  look()
  return () => {
    clearInterval(timer)
    document.removeEventListener('visibilitychange', look)
    removeEventListener(LOOK_AGAIN, look)
  }
}

const LOOK_AGAIN = 'rillmark-room'

/** After something large was kept or let go, or could not be kept. */
export function lookAtRoomAgain(): void {
  globalThis.dispatchEvent?.(new Event(LOOK_AGAIN))
}
