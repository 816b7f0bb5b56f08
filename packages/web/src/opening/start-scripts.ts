import { lastPlace } from '../offline/last-place.ts'
import { wasLetIn } from '../offline/let-in.ts'
import { readKept } from '../store/keep.ts'
import { followTheme, keptTheme } from '../store/theme.ts'
import { type FoundStill, readEarly } from './early-links.ts'
import { type ScriptLoader, scriptLoader, type ScriptTable } from './script-loader.ts'
import { showStill } from './show-still.ts'
import { investigationOfStill, isOfNow, type KeptStill, settingsHere, STILL_HINT } from './still.ts'

/** What the build writes above this script. */
export interface Written {
  readonly table: ScriptTable
  /** names this build: any other file of the app, another name */
  readonly build: string
  /** names the schemas of this build: others, another name */
  readonly schemas: string
  /** the part that starts the app */
  readonly main: string
  /** what every screen of an investigation needs, and what each needs besides, by its step: scripts and styles */
  readonly inInvestigation: readonly string[]
  readonly screens: Readonly<Record<string, readonly string[]>>
}

declare global {
  var rillmarkWritten: Written
  var rillmarkScripts: ScriptLoader
}

const FOLDER = '/assets/'
const SCREEN = /^\/i\/([^/]+)(?:\/([a-z-]+))?/
/** The letters of a still; one set in others would move when these arrive. */
const LETTERS = ['400', '500', '600'].map((weight) => `${weight} 1rem "IBM Plex Sans"`)
/** How long they are waited for where the browser has them not at hand. */
const LETTERS_WITHIN_MS = 200

/** How long a still is waited for: without one the app starts as well. */
const STILL_WITHIN_MS = 1000

/** The first script of the page: the record and the screen that the address names are on their way before the app has started, and the still of that screen is painted. */
async function startScripts({ table, build, main, inInvestigation, screens }: Written): Promise<void> {
  const loader = scriptLoader(table, {
    add: addScript,
    addressOf: (name) => new URL(FOLDER + name, location.href).href,
  })
  globalThis.rillmarkScripts = loader
  followTheme(keptTheme())()
  const pathname = location.pathname === '/open' ? lastPlace() : location.pathname
  const [, investigation, step = 'brief'] = SCREEN.exec(pathname) ?? []
  const needed = investigation === undefined ? [] : [...inInvestigation, ...(screens[step] ?? [])]
  const [styles, parts] = [needed.filter(isStyle), needed.filter((name) => !isStyle(name))]
  for (const name of styles) preload(name, 'style')
  const still = investigation === undefined ? undefined : readEarly(decodeURIComponent(investigation))
  if (still !== undefined && isExpected(pathname)) {
    // running what arrives would keep the still waiting, so it is only fetched, and not before the still is up
    const files = new Set([main, ...parts].flatMap((part) => [...loader.filesOf(part)]))
    await parsed()
    await onGlass(still, {
      here: { build, place: pathname },
      styles,
      up: () => {
        for (const file of files) preload(file, 'script')
      },
    })
  }
  for (const part of [main, ...parts]) loader.fetchSoon(part)
  await parsed()
  await loader.later(main)
}

const isStyle = (name: string): boolean => name.endsWith('.css')

/** A still was kept of this screen as the last, the server has not said that this device is out, and the page is opened, not loaded again where it had been scrolled to. */
function isExpected(pathname: string): boolean {
  const [opening] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[]
  const here = { pathname, search: location.search, hash: location.hash }
  const can = opening?.type === 'navigate' && wasLetIn() && investigationOfStill(here) !== undefined
  return can && readKept(STILL_HINT) === pathname
}

/** Settles when the still is painted, when it is known that there is none that holds, or when it takes too long. */
async function onGlass(
  reading: Promise<FoundStill | undefined>,
  given: { here: Pick<KeptStill, 'build' | 'place'>; styles: readonly string[]; up: () => void },
): Promise<void> {
  const app = document.getElementById('app')
  const letters = Promise.all(LETTERS.map((one) => document.fonts.load(one))).catch(() => undefined)
  const found = await Promise.race([reading, after(STILL_WITHIN_MS)])
  if (found === undefined || app === null) return
  const { still, standing } = found
  if (!isOfNow(still, { ...given.here, ...standing, width: innerWidth, settings: settingsHere() })) return
  await Promise.all([Promise.race([letters, after(LETTERS_WITHIN_MS)]), ...given.styles.map(addStyle)])
  const painted = showStill(still, app)
  given.up()
  await painted
}

function after(ms: number): Promise<undefined> {
  return new Promise((resolve) => {
    setTimeout(resolve, ms)
  })
}

/** When all of the page is there and its styles have come. */
async function parsed(): Promise<void> {
  if (document.readyState === 'loading')
    await new Promise((resolve) => {
      document.addEventListener('DOMContentLoaded', resolve, { once: true })
    })
  for (const link of document.querySelectorAll<HTMLLinkElement>('link[rel="stylesheet"]'))
    if (link.sheet === null)
      await new Promise((resolve) => {
        for (const outcome of ['load', 'error']) link.addEventListener(outcome, resolve, { once: true })
      })
}

function addScript(name: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const script = document.createElement('script')
    script.src = FOLDER + name
    script.addEventListener('load', () => resolve())
    script.addEventListener('error', () => {
      script.remove()
      reject(new TypeError(`Cannot fetch ${name} of the app`))
    })
    document.head.append(script)
  })
}

/** As the app itself adds those of a screen, which it then finds in place. */
function addStyle(name: string): Promise<void> {
  return new Promise((resolve) => {
    const link = document.createElement('link')
    Object.assign(link, { rel: 'stylesheet', crossOrigin: '', href: FOLDER + name })
    for (const outcome of ['load', 'error']) link.addEventListener(outcome, () => resolve(), { once: true })
    document.head.append(link)
  })
}

function preload(name: string, as: 'script' | 'style'): void {
  const link = document.createElement('link')
  Object.assign(link, { rel: 'preload', as, href: FOLDER + name })
  if (as === 'style') link.crossOrigin = ''
  document.head.append(link)
}

/** Where nothing of the app has come up, it is said, with the way on. */
function sayNotStarted(error: unknown): void {
  const app = document.getElementById('app')
  if (app === null || app.childElementCount > 0) return
  const [whole, words, again] = ['div', 'p', 'button'].map((name) => document.createElement(name))
  if (whole === undefined || words === undefined || again === undefined) return
  whole.className = 'not-started'
  whole.role = 'alert'
  words.textContent = `Rillmark could not start: ${error instanceof Error ? error.message : String(error)}. Nothing written is lost.`
  again.textContent = 'Load it again'
  again.className = 'button'
  again.addEventListener('click', () => location.reload())
  whole.append(words, again)
  app.before(whole)
}

startScripts(globalThis.rillmarkWritten).catch((error: unknown) => {
  sayNotStarted(error)
  // seen by whatever watches for failures, the still among them
  throw error
})
