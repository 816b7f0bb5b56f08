import { heldBecause } from './busy.ts'
import { makeSignal } from './signal.ts'

/** `waiting`: a newer version is on this device and not in use; `in another tab`: it has been taken into use there. */
export type VersionStanding = 'current' | 'waiting' | 'in another tab'

export const versionStanding = makeSignal<VersionStanding>('current')

let asked = false

/** This tab asked for the newer version, and loads with it when it takes over. */
export function loadOnTakeover(): void {
  asked = true
}

/**
 * Hears that a newer version has taken over, from the first moment of the page on. Whoever asked gets the new page; a tab nobody looks at and
 * nothing is under way in too; any other is told. Returns how to stop.
 */
export function watchTakeover(): () => void {
  const { serviceWorker } = navigator as { serviceWorker?: ServiceWorkerContainer }
  if (serviceWorker === undefined) return () => undefined
  let controlled = serviceWorker.controller !== null
  const changed = (): void => {
    if (controlled) takenOver()
    controlled = true
  }
  serviceWorker.addEventListener('controllerchange', changed)
  return () => serviceWorker.removeEventListener('controllerchange', changed)
}

function takenOver(): void {
  const unseen = document.visibilityState === 'hidden' && heldBecause().length === 0
  if (asked || unseen) location.reload()
  else versionStanding.set('in another tab')
}
