// Takes a picture of every screen of the worked example, for people to look at: desk and phone, light and dark.
// RILLMARK_URL photographs an app that already runs.
import { mkdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { type Browser, chromium, type Page } from '@playwright/test'
import { indexPage } from './gallery/index-page.ts'
import { addressOf, allScenes, fileOf, type Scene, SIZES, THEMES } from './gallery/scenes.ts'
import { chromiumLaunchOptions } from './phases/chromium.ts'
import { ROOT } from './phases/command.ts'
import { requireBuiltApp, startApp } from './phases/running-app.ts'

const FOLDER = join(ROOT, 'gallery')
const SETTLE_MS = 20_000

const running = process.env['RILLMARK_URL']
if (running === undefined) requireBuiltApp()
rmSync(FOLDER, { recursive: true, force: true })
mkdirSync(FOLDER, { recursive: true })
const app = running === undefined ? await startApp({ demo: true }) : { url: running, stop: async () => undefined }
const problems = new Map<string, readonly string[]>()
try {
  const browser = await chromium.launch(chromiumLaunchOptions())
  for (const size of SIZES) for (const theme of THEMES) await takeAll(browser, { size, theme })
  await browser.close()
} finally {
  await app.stop()
}
writeFileSync(join(FOLDER, 'index.html'), indexPage(problems))
for (const [file, texts] of problems) for (const text of texts) process.stdout.write(`${file}: ${text}\n`)
const flawed = [...problems.values()].filter((texts) => texts.length > 0).length
process.stdout.write(`${allScenes().length} pictures in gallery/index.html, ${flawed} with something to mend\n`)
process.exitCode = flawed === 0 ? 0 : 1

/** All screens at one size in one theme, in one browser profile, as one person would see them. */
async function takeAll(browser: Browser, { size, theme }: Pick<Scene, 'size' | 'theme'>): Promise<void> {
  const phone = size.name === 'phone'
  const context = await browser.newContext({
    baseURL: app.url,
    viewport: { width: size.width, height: size.height },
    colorScheme: theme,
    reducedMotion: 'reduce',
    hasTouch: phone,
    locale: 'en-GB',
  })
  const page = await context.newPage()
  const investigation = await openExample(page)
  for (const scene of allScenes().filter((each) => each.size === size && each.theme === theme)) {
    problems.set(fileOf(scene), await take(page, { scene, investigation }))
  }
  await context.close()
}

/** Opens the worked example from the start page and reads its id from the address. */
async function openExample(page: Page): Promise<string> {
  await page.goto('/')
  const link = page.locator('a[href^="/i/"]').first()
  const button = page.getByRole('button', { name: /worked example/i }).first()
  await link.or(button).first().waitFor({ timeout: SETTLE_MS })
  await ((await link.count()) > 0 ? link : button).click()
  await page.waitForURL(/\/i\/[^/]+/, { timeout: SETTLE_MS })
  return decodeURIComponent(/\/i\/([^/]+)/.exec(page.url())?.[1] ?? '')
}

/** Takes one picture; gives back what a person should not have seen: script errors, and a page wider than the screen. */
async function take(page: Page, { scene, investigation }: { scene: Scene; investigation: string }): Promise<string[]> {
  const told: string[] = []
  const note = (error: Error) => told.push(`script error: ${error.message}`)
  page.on('pageerror', note)
  await page.goto(addressOf(scene.screen, investigation))
  try {
    await page.getByRole('main').waitFor({ timeout: SETTLE_MS })
    await page
      .getByRole('main')
      .getByRole('heading')
      .or(page.locator('main svg'))
      .first()
      .waitFor({ timeout: SETTLE_MS })
  } catch {
    told.push('no main part appeared')
  }
  await settle(page)
  const excess = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
  if (excess > 0) told.push(`${excess} px wider than the screen`)
  await page.screenshot({
    path: join(FOLDER, fileOf(scene)),
    fullPage: scene.size.name === 'phone',
  })
  page.off('pageerror', note)
  return told
}

/** Waits until fonts are in, nothing is marked busy and two frames have passed. */
async function settle(page: Page): Promise<void> {
  await page
    .waitForFunction(() => document.querySelector('[aria-busy="true"]') === null, undefined, { timeout: SETTLE_MS })
    .catch(() => undefined)
  await page.evaluate(async () => {
    await document.fonts.ready
    for (let frame = 0; frame < 2; frame += 1) await new Promise((resolve) => requestAnimationFrame(resolve))
  })
}
