import type { KeptStill } from './still.ts'

const ID = 'still'
/** How long it may stand: an app that is not alive by then may have failed. */
const LONGEST_MS = 10_000
const NEVER = 'script, style, link, iframe, object, embed, base, meta'

declare global {
  /** what happened to the still at this opening, for tests and measurements */
  var rillmarkStill: { readonly paintedMs?: number; readonly goneMs?: number; readonly why?: Why } | undefined
}

/** `alive`: the app shows the screen itself; `failed`: it can't start. */
type Why = 'alive' | 'failed' | 'too late'

/**
 * Puts a still on the glass, before the place of the app, which works unseen until its screen stands; then, before anything else is painted, the
 * still goes. It can be scrolled and read; it can't be pressed, and says that the app is opening. Settles when it was painted.
 */
export function showStill({ html }: KeptStill, app: HTMLElement): Promise<void> {
  const sheet = setUp(html)
  if (sheet === undefined) return Promise.resolve()
  const whole = document.createElement('div')
  whole.id = ID
  whole.ariaBusy = 'true'
  const said = Object.assign(document.createElement('p'), { className: 'visually-hidden', role: 'status' })
  whole.append(said, sheet)
  app.before(whole)
  said.textContent = 'Opening …'
  app.dataset['behind'] = ''
  globalThis.rillmarkStill = {}
  goWhenAlive(whole, app)
  return new Promise((resolve) => {
    // the frame after this one begins when this one was handed over to be painted
    requestAnimationFrame(() =>
      setTimeout(() => {
        globalThis.rillmarkStill = { ...globalThis.rillmarkStill, paintedMs: performance.now() }
        resolve()
      }),
    )
  })
}

/** The elements of a still, which can't run, load or be pressed; undefined where one has something in it that no still has. */
function setUp(html: string): HTMLElement | undefined {
  const template = document.createElement('template')
  template.innerHTML = html
  if (template.content.querySelector(NEVER) !== null) return undefined
  for (const each of template.content.querySelectorAll('*'))
    for (const name of each.getAttributeNames()) if (name.startsWith('on') || name === 'src') each.removeAttribute(name)
  for (const each of template.content.querySelectorAll<HTMLElement>('[data-style]'))
    each.style.cssText = each.dataset['style'] ?? ''
  const sheet = document.createElement('div')
  sheet.className = 'still-sheet'
  sheet.inert = true
  sheet.append(template.content)
  return sheet
}

function goWhenAlive(whole: HTMLElement, app: HTMLElement): void {
  const ends = new AbortController()
  const go = (why: Why): void => {
    if (ends.signal.aborted) return
    ends.abort()
    const scrolled = whole.querySelector('main')?.scrollTop ?? 0
    whole.remove()
    delete app.dataset['behind']
    const main = app.querySelector('main')
    if (main !== null && scrolled > 0) main.scrollTop = scrolled
    globalThis.rillmarkStill = { ...globalThis.rillmarkStill, goneMs: performance.now(), why }
  }
  // told right after the change and before it is painted
  const watch = new MutationObserver(() => {
    if (app.querySelector('main h1') !== null) go('alive')
  })
  watch.observe(app, { childList: true, subtree: true })
  const late = setTimeout(() => go('too late'), LONGEST_MS)
  ends.signal.addEventListener('abort', () => {
    watch.disconnect()
    clearTimeout(late)
  })
  const { signal } = ends
  const failed = ({ target }: Event): void => {
    if (target === globalThis || target instanceof HTMLScriptElement) go('failed')
  }
  addEventListener('error', failed, { signal, capture: true })
  addEventListener('unhandledrejection', () => go('failed'), { signal })
}
