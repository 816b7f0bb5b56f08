/** Larger screens have no still: reading and setting it up would take as long as the app itself. */
const LARGEST_CHARACTERS = 300_000
/** What a still is no picture of: what plays, runs, loads or comes from elsewhere, and notices that are of the moment. */
const NEVER =
  'script, style, link, iframe, object, embed, video, audio, template, noscript, dialog, form[action], .toasts, .app-line'
/** Shown as a blank of the same size. */
const BLANK = '[data-still="blank"], [data-still="head"] > :not(:first-child), img, canvas, select, textarea, .diagram'
const OPENING = 'Opening …'

const NAMES: ReadonlySet<string> = new Set(
  [
    'class type dir lang hidden disabled open colspan rowspan rows cols size placeholder start reversed',
    'aria-current aria-selected aria-pressed aria-expanded aria-invalid aria-disabled',
    'viewBox preserveAspectRatio width height x y x1 x2 y1 y2 dx dy cx cy r rx ry d points pathLength transform fill stroke',
    'stroke-width stroke-dasharray stroke-linecap stroke-linejoin fill-rule clip-rule opacity text-anchor dominant-baseline',
  ].flatMap((names) => names.split(' ')),
)
/** Where the hand or the keyboard is at this moment, and our own marks. */
const OF_THE_MOMENT = /^data-(?:focus|hover|press)/

/** Whether a still keeps an attribute: those that only make it look as it does. No name, no address, no handler, nothing typed. */
export function keepsAttribute(name: string, value: string): boolean {
  const looks = NAMES.has(name) || (name.startsWith('data-') && !OF_THE_MOMENT.test(name))
  return looks && !/url\(|(?:javascript|blob|data):/i.test(value)
}

/**
 * What is on the screen, as text that can be set up again: the elements and what they look like, without names, addresses, values and handlers. Parts
 * marked with `data-still` are left out: `blank` keeps its size, `head` keeps its first child, `opening` says that the app is opening. Undefined
 * where the screen is too large.
 */
export function drawStill(app: Element): string | undefined {
  const drawn = app.cloneNode(true) as Element
  const blanks = [...drawn.querySelectorAll(BLANK)]
  for (const [at, shown] of [...app.querySelectorAll(BLANK)].entries()) {
    const blank = blanks[at]
    if (blank !== undefined) empty(blank, shown)
  }
  for (const each of drawn.querySelectorAll(NEVER)) each.remove()
  for (const each of drawn.querySelectorAll('[data-still="opening"]')) each.textContent = OPENING
  for (const each of drawn.querySelectorAll('*')) {
    // set by a script at the opening: the policy of the page allows no styles in text
    const style = each.getAttribute('style')
    for (const name of each.getAttributeNames())
      if (!keepsAttribute(name, each.getAttribute(name) ?? '')) each.removeAttribute(name)
    if (style !== null && keepsAttribute('data-style', style)) each.setAttribute('data-style', style)
    // links look like links only with an address
    if (each.localName === 'a') each.setAttribute('href', '')
  }
  const html = drawn.innerHTML
  return html.length > LARGEST_CHARACTERS ? undefined : html
}

/** In its place stands one that is as large and says nothing. */
function empty(drawn: Element, shown: Element): void {
  const { width, height } = shown.getBoundingClientRect()
  const { display } = getComputedStyle(shown)
  const blank = document.createElement(drawn instanceof HTMLElement && !isReplaced(drawn) ? drawn.localName : 'span')
  blank.className = drawn.getAttribute('class') ?? ''
  blank.dataset['still'] = 'blank'
  const inline = display === 'inline' ? 'inline-block' : display
  blank.dataset['style'] = `display:${inline};width:${width}px;height:${height}px;overflow:hidden;vertical-align:top`
  drawn.replaceWith(blank)
}

const isReplaced = ({ localName }: Element): boolean => ['img', 'canvas', 'select', 'textarea'].includes(localName)
