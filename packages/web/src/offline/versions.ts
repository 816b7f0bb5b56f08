import { Workbox } from 'workbox-window'
import { anyTabAtWork } from './busy.ts'
import { loadOnTakeover, versionStanding } from './takeover.ts'

const LOOK_EVERY_MS = 3_600_000
const TAKES_OVER_WITHIN_MS = 10_000

let workbox: Workbox | undefined

/**
 * Puts the app on this device and looks for newer versions. A newer version is fetched whole and then waits: nothing loads again by itself
 * while someone looks at the page.
 */
export function followVersions(): void {
  const { serviceWorker } = navigator as { serviceWorker?: ServiceWorkerContainer }
  if (serviceWorker === undefined || workbox !== undefined) return
  const here = new Workbox('/sw.js', { scope: '/' })
  workbox = here
  here.addEventListener('waiting', () => versionStanding.set('waiting'))
  here.register({ immediate: true }).catch(() => undefined)
  let lookedMs = Date.now()
  const look = (): void => {
    if (document.visibilityState !== 'visible' || Date.now() - lookedMs < LOOK_EVERY_MS) return
    lookedMs = Date.now()
    here.update().catch(() => undefined)
  }
  setInterval(look, LOOK_EVERY_MS)
  document.addEventListener('visibilitychange', look)
}

/** Takes the waiting version into use and loads the page with it; says so when a tab of this browser is at work and it goes on waiting. */
export async function takeNewVersion(): Promise<'taken' | 'at work'> {
  if (await anyTabAtWork()) return 'at work'
  loadOnTakeover()
  if (versionStanding.get() === 'waiting') {
    workbox?.messageSkipWaiting()
    setTimeout(() => location.reload(), TAKES_OVER_WITHIN_MS)
  } else location.reload()
  return 'taken'
}

/** For a page whose scripts are older than what is kept: fetches the newer version and loads the page with it. */
export async function fetchNewVersion(): Promise<void> {
  loadOnTakeover()
  await workbox?.update().catch(() => undefined)
  workbox?.messageSkipWaiting()
  setTimeout(() => location.reload(), 2000)
}
