// How long the app takes to open from cold where there is no network: the server is stopped, the browser newly started, its network off, the page's
// processor slowed four times (Emulation.setCPUThrottlingRate). It opens at the screen of the worked example that was shown last. Run after
// `npm run build`; needs Chromium.
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
    const shown = leastOf(slowed.map(({ shownMs }) => shownMs))
    return [
      {
        what: `open from cold without a network, processor slowed ${SLOWED} times, least of ${RUNS}`,
        value: shown,
        unit: 'ms',
        budget: BUDGET_MS,
        ratio: {
          to: 'the same at full speed',
          times: shown / leastOf(plain.map(({ shownMs }) => shownMs)),
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
    await context.close()
    return app.url
  } finally {
    await app.stop()
  }
}

interface Opening {
  readonly shownMs: number
  readonly processorMs: number
}

/** From the start of the navigation until the heading of the screen is there and was drawn. */
async function coldOpening(profile: string, { url, rate }: { url: string; rate: number }): Promise<Opening> {
  const context = await launch(profile)
  try {
    const page = await context.newPage()
    await context.setOffline(true)
    const tools = await context.newCDPSession(page)
    await tools.send('Emulation.setCPUThrottlingRate', { rate })
    await page.addInitScript(() => {
      const look = (): void => {
        if (document.querySelector('main h1') === null) requestAnimationFrame(look)
        else requestAnimationFrame(() => Object.assign(globalThis, { shownMs: performance.now() }))
      }
      look()
    })
    await page.goto(`${url}/open`, { waitUntil: 'commit', timeout: 120_000 })
    const shownMs = await (
      await page.waitForFunction(() => Reflect.get(globalThis, 'shownMs') as number | undefined)
    ).jsonValue()
    if (shownMs === undefined || !page.url().endsWith(SCREEN))
      throw new Error(`Cannot measure the opening because it ended at ${page.url()}`)
    return { shownMs, processorMs: await processorMsOf(page) }
  } finally {
    await context.close()
  }
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
