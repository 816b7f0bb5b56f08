// How long the app takes to open from cold where there is no network: the server is stopped, the browser newly started, its network off, the page's
// processor slowed four times (Emulation.setCPUThrottlingRate). It opens at the screen of the worked example that was shown last. Two times are
// taken: until its heading and its list of stops are on the glass, as the app keeps them from the last time or as it works them out, and until the
// screen answers a press. What was on the glass first must say what the screen says then, but for what depends on the time; otherwise the
// measurement fails. Run after `npm run build`; needs Chromium.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type BrowserContext, chromium, type Page } from '@playwright/test'
import { chromiumLaunchOptions } from '../scripts/phases/chromium.ts'
import { requireBuiltApp, startApp } from '../scripts/phases/running-app.ts'
import type { Measurement } from './measure.ts'

/** docs of the design: useful content in 1 s on a mid-range phone, offline too. */
const BUDGET_MS = 1000
const SLOWED = 4
const RUNS = 5
const SCREEN = '/i/marram-house/fieldwork'
const PHONE = { width: 390, height: 844 }

export async function measure(): Promise<Measurement[]> {
  requireBuiltApp()
  const profile = mkdtempSync(join(tmpdir(), 'rillmark-cold-'))
  try {
    const url = await prepare(profile)
    const slowed: Opening[] = []
    const plain: Opening[] = []
    for (let run = 0; run < RUNS; run += 1) {
      slowed.push(await coldOpening(profile, { url, rate: SLOWED }))
      plain.push(await coldOpening(profile, { url, rate: 1 }))
    }
    const [painted, alive] = [({ paintedMs }: Opening) => paintedMs, ({ aliveMs }: Opening) => aliveMs]
    const cold = 'open from cold without a network'
    const slow = `processor slowed ${SLOWED} times, least of ${RUNS}`
    return [
      {
        what: `${cold}: heading and stops painted, ${slow}`,
        value: leastOf(slowed.map(painted)),
        unit: 'ms',
        budget: BUDGET_MS,
        ratio: {
          to: 'the same at full speed',
          times: leastOf(slowed.map(painted)) / leastOf(plain.map(painted)),
        },
      },
      {
        what: `${cold}: a press answered, ${slow}`,
        value: leastOf(slowed.map(alive)),
        unit: 'ms',
        ratio: {
          to: 'the same at full speed',
          times: leastOf(slowed.map(alive)) / leastOf(plain.map(alive)),
        },
      },
      {
        what: 'processor time of the page for it, at full speed',
        value: leastOf(plain.map(({ processorMs }) => processorMs)),
        unit: 'ms',
        note: 'all its threads; the same on a busy machine, or nearly',
      },
    ]
  } finally {
    rmSync(profile, { recursive: true, force: true })
  }
}

/** Visits once with the server, until the app and the record are on the device; then the server is gone. */
async function prepare(profile: string): Promise<string> {
  const app = await startApp({ demo: true })
  try {
    const context = await launch(profile)
    const page = await context.newPage()
    await page.goto(`${app.url}${SCREEN}`)
    await page
      .getByText(/^All \d+ entries are on the server/)
      .first()
      .waitFor({ state: 'attached', timeout: 120_000 })
    await page.evaluate(() => navigator.serviceWorker.ready)
    // the screen has settled, and what it shows is kept for the next opening
    await page.waitForFunction((place) => localStorage.getItem('rillmark.still') === JSON.stringify(place), SCREEN)
    await context.close()
    return app.url
  } finally {
    await app.stop()
  }
}

interface Opening {
  readonly paintedMs: number
  readonly aliveMs: number
  readonly processorMs: number
}

/** What the page notes of its own opening. */
interface Noted {
  readonly paintedMs?: number
  readonly paintedText?: string
  readonly aliveMs?: number
  readonly aliveText?: string
}

/** From the start of the navigation until the screen was drawn, and until it answered a press. */
async function coldOpening(profile: string, { url, rate }: { url: string; rate: number }): Promise<Opening> {
  const context = await launch(profile)
  try {
    const page = await context.newPage()
    await context.setOffline(true)
    const tools = await context.newCDPSession(page)
    await tools.send('Emulation.setCPUThrottlingRate', { rate })
    await page.addInitScript(watchOpening)
    await page.goto(`${url}/open`, { waitUntil: 'commit', timeout: 120_000 })
    await page.waitForFunction(() => (Reflect.get(globalThis, 'noted') as Noted).aliveMs !== undefined)
    const noted = await page.evaluate(() => Reflect.get(globalThis, 'noted') as Noted)
    const { paintedMs, paintedText, aliveMs, aliveText } = noted
    if (paintedMs === undefined || aliveMs === undefined || !page.url().endsWith(SCREEN))
      throw new Error(`Cannot measure the opening because it ended at ${page.url()}`)
    if (paintedText !== aliveText)
      throw new Error(`Cannot measure the opening because what was painted first said otherwise: ${paintedText}`)
    return { paintedMs, aliveMs, processorMs: await processorMsOf(page) }
  } finally {
    await context.close()
  }
}

/** Runs in the page: notes when and what was drawn first, and when the screen itself stands and has answered a press. */
function watchOpening(): void {
  const noted: Record<string, unknown> = {}
  Object.assign(globalThis, { noted })
  const text = (main: Element): string => {
    const copy = main.cloneNode(true) as Element
    for (const left of copy.querySelectorAll('[data-still="blank"], select, .app-line')) left.remove()
    return copy.textContent.replaceAll(/\s+/g, ' ')
  }
  const shows = (main: Element | null): main is Element =>
    main !== null && main.querySelector('h1') !== null && main.querySelectorAll('.field-stop').length > 10
  let isSeen = false
  const look = (): void => {
    const main = document.querySelector('main')
    if (!isSeen && shows(main)) {
      isSeen = true
      requestAnimationFrame(() => {
        noted['paintedMs'] = performance.now()
        // read once it is painted, lest the reading hold the painting up
        noted['paintedText'] = text(main)
      })
    }
    const live = document.querySelector('#app main')
    if (noted['aliveText'] === undefined && shows(live)) {
      noted['aliveText'] = text(live)
      document.querySelector<HTMLElement>('#app .bar-job button')?.click()
    }
    if (document.querySelector('[role="dialog"]') === null) requestAnimationFrame(look)
    else noted['aliveMs'] = performance.now()
  }
  look()
}

/** Of all renderers the one that worked most is the page's. */
async function processorMsOf(page: Page): Promise<number> {
  const browser = page.context().browser()
  if (browser === null) throw new Error('Cannot measure the opening because the browser is gone')
  const tools = await browser.newBrowserCDPSession()
  const { processInfo } = await tools.send('SystemInfo.getProcessInfo')
  return Math.max(...processInfo.filter(({ type }) => type === 'renderer').map(({ cpuTime }) => cpuTime * 1000))
}

function launch(profile: string): Promise<BrowserContext> {
  return chromium.launchPersistentContext(profile, {
    ...chromiumLaunchOptions(),
    viewport: PHONE,
    serviceWorkers: 'allow',
  })
}

const leastOf = (values: readonly number[]): number => Math.min(...values)
