import { lastPlace } from '../offline/last-place.ts'
import { readEarly } from './early-links.ts'
import { type ScriptLoader, scriptLoader, type ScriptTable } from './script-loader.ts'

/** What the build writes above this script. */
export interface Written {
  readonly table: ScriptTable
  /** names the schemas of this build: others, another name */
  readonly schemas: string
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

/** The first script of the page: the record and the screen that the address names are on their way before the app has started. */
function startScripts({ table, inInvestigation, screens }: Written): void {
  const loader = scriptLoader(table, {
    add: addScript,
    addressOf: (name) => new URL(FOLDER + name, location.href).href,
  })
  globalThis.rillmarkScripts = loader
  const place = SCREEN.exec(location.pathname === '/open' ? lastPlace() : location.pathname)
  if (place === null) return
  const [, investigation = '', step = 'brief'] = place
  readEarly(decodeURIComponent(investigation))
  for (const name of [...inInvestigation, ...(screens[step] ?? [])])
    if (name.endsWith('.css')) preloadStyle(name)
    else loader.fetchSoon(name)
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

function preloadStyle(name: string): void {
  const link = document.createElement('link')
  Object.assign(link, { rel: 'preload', as: 'style', crossOrigin: '', href: FOLDER + name })
  document.head.append(link)
}

startScripts(globalThis.rillmarkWritten)
