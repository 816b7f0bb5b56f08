import { keep } from '../store/keep.ts'
import { drawStill } from './draw-still.ts'
import { type DrawnFrom, type DrawnStill, investigationOfStill, STILL_HINT, settingsHere } from './still.ts'

/** A change is settled when nothing more has changed for this long. */
const SETTLED_MS = 600
/** Whatever of a screen is still on its way, or is of the moment. */
const UNSETTLED = '#app [aria-busy="true"], [role="dialog"], [role="alertdialog"], [role="listbox"], [role="menu"]'

export interface StillKeeper {
  readonly investigation: string
  /** whether the screen shows the record as this device has it, and the device may show it: not while something speaks against it */
  readonly isSound: () => boolean
  /** what the screen is drawn from; a still drawn from another is not kept */
  readonly version: () => number
  /** what it was kept as drawn from; undefined where it was not kept, or is already */
  readonly keep: (drawn: DrawnStill) => Promise<DrawnFrom | undefined>
}

/**
 * Keeps a still of the screen of an investigation whenever it has settled, and when the page is left. Whatever is written to the record drops it
 * in the same stroke. Only where the app itself is on the device: elsewhere an opening waits for the network anyway. Returns how to stop.
 */
export function keepStills(keeper: StillKeeper): () => void {
  const build = (globalThis as { rillmarkWritten?: { readonly build: string } }).rillmarkWritten?.build
  const { serviceWorker } = navigator as { serviceWorker?: ServiceWorkerContainer }
  const app = document.getElementById('app')
  if (build === undefined || serviceWorker === undefined || app === null) return () => undefined
  let timer: ReturnType<typeof setTimeout> | undefined
  let last: { readonly text: string; readonly of: DrawnFrom } | undefined
  const draw = (): void => {
    clearTimeout(timer)
    timer = undefined
    const { pathname: place } = location
    const settled = serviceWorker.controller !== null && document.querySelector(UNSETTLED) === null
    if (!settled || !keeper.isSound() || investigationOfStill(location) !== keeper.investigation) return
    const html = drawStill(app)
    if (html === undefined) return
    const still = { build, place, width: innerWidth, settings: settingsHere(), html }
    const version = keeper.version()
    const text = JSON.stringify([version, still])
    // the same screen is kept again where the record stands otherwise: what changed there dropped the still
    keeper.keep({ still, version, keptOf: last?.text === text ? last.of : undefined }).then(
      (of) => {
        if (of === undefined) return
        last = { text, of }
        keep(STILL_HINT, place)
      },
      () => undefined,
    )
  }
  const changed = (): void => {
    clearTimeout(timer)
    timer = setTimeout(() => whenIdle(draw), SETTLED_MS)
  }
  const left = (): void => {
    if (timer !== undefined && document.visibilityState === 'hidden') draw()
  }
  const watch = new MutationObserver(changed)
  watch.observe(app, { childList: true, subtree: true, characterData: true, attributes: true })
  document.addEventListener('visibilitychange', left)
  serviceWorker.addEventListener('controllerchange', changed)
  addEventListener('resize', changed)
  changed()
  return () => {
    clearTimeout(timer)
    watch.disconnect()
    document.removeEventListener('visibilitychange', left)
    serviceWorker.removeEventListener('controllerchange', changed)
    removeEventListener('resize', changed)
  }
}

function whenIdle(run: () => void): void {
  const { requestIdleCallback: ask } = globalThis as { requestIdleCallback?: typeof requestIdleCallback }
  if (ask === undefined) run()
  else ask(() => run(), { timeout: SETTLED_MS })
}
