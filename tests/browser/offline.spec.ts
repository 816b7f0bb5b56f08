import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { STEPS } from '@rillmark/casebook/entry/steps.ts'
import { expect as soon, type Page, test } from '@playwright/test'
import { type OwnApp, startOwnApp } from './job/own-app.ts'
import { button, dialogOf, field } from './job/person.ts'

// The app where there is no network: its server is stopped, not only hidden. The service worker is the one that people get.
test.use({ serviceWorkers: 'allow' })
test.setTimeout(300_000)
/** The first opening fetches the record and the whole app, on a machine that may have other work. */
const expect = soon.configure({ timeout: 60_000 })

const EXAMPLE = '/i/marram-house'
const SCREENS = [...STEPS, 'calculators', 'calculators/shock-dose']
const NOTE = 'Boiler room locked; the key is with the night porter.'

let app: OwnApp
test.beforeAll(async () => {
  app = await startOwnApp()
})
test.afterEach(() => app.start())
test.afterAll(() => app.remove())

test('[OFF1] after one visit every screen opens without a network, from cold, and works', async ({ context }) => {
  const first = await context.newPage()
  await visit(first, `${EXAMPLE}/fieldwork`)
  await first.close()
  await app.stop()
  const page = await context.newPage()
  const failed: string[] = []
  page.on('pageerror', (error) => failed.push(error.message))
  page.on('requestfailed', (request) => {
    // what the next screen cut short was not refused
    const [{ pathname }, why] = [new URL(request.url()), request.failure()?.errorText]
    if (!pathname.startsWith('/api/') && why !== 'net::ERR_ABORTED') failed.push(`${request.url()} ${why}`)
  })
  for (const screen of SCREENS) {
    await page.goto(`${app.url}${EXAMPLE}/${screen}`)
    await expect(page.getByRole('main').getByRole('heading').first(), screen).toBeVisible()
    await expect(page.getByText('could not be shown'), screen).toHaveCount(0)
  }
  // a calculation runs in a worker, with its reference data
  const result = page.getByRole('main')
  await page.goto(`${app.url}${EXAMPLE}/calculators/scald-time`)
  await page
    .getByLabel(/temperature/i)
    .first()
    .fill('60')
  await expect(result).toContainText(/adult/i)
  // the water is simulated in another
  await page.goto(`${app.url}${EXAMPLE}/building`)
  await page.getByRole('tab', { name: 'Predicted' }).click()
  await expect(page.getByRole('main')).toContainText(/°C/)
  expect(await page.evaluate(() => document.fonts.check('1rem "IBM Plex Sans"'))).toBe(true)
  expect(failed).toEqual([])
})

test('[OFF1] [OFF13] what the server alone can answer is never answered from here', async ({ context }) => {
  const page = await context.newPage()
  await visit(page, `${EXAMPLE}/brief`)
  const answer = page.waitForResponse((response) => response.url().endsWith('/api/health'))
  await page.evaluate(() => fetch('/api/health'))
  expect((await answer).fromServiceWorker()).toBe(false)
  const kept = await page.evaluate(async () => {
    const urls: string[] = []
    for (const name of await caches.keys())
      for (const { url } of await (await caches.open(name)).keys()) urls.push(new URL(url).pathname)
    return urls
  })
  expect(kept.length).toBeGreaterThan(50)
  expect(kept.filter((path) => path.startsWith('/api'))).toEqual([])
  await page.goto(`${app.url}/api/health`)
  await expect(page.locator('body')).toContainText('"ok":true')
})

test('[OFF2] the installed app opens at the screen shown last, without a network', async ({ context }) => {
  const page = await context.newPage()
  await visit(page, `${EXAMPLE}/custody`)
  await page.close()
  await app.stop()
  const again = await context.newPage()
  await again.goto(`${app.url}/open`)
  await expect(again).toHaveURL(`${app.url}${EXAMPLE}/custody`)
  await expect(again.getByRole('main').getByRole('heading', { level: 1 })).toBeVisible()
})

test('[OFF3] [OFF4] an investigation is kept whole, not let go while an entry waits, and let go after', async ({
  context,
}) => {
  const page = await context.newPage()
  await visit(page, '/')
  await button(page, 'Keep on this device: Marram House').click()
  await expect(page.getByText(/^Whole copy on this device/)).toBeVisible()
  await app.stop()
  await writeNote(page, NOTE)
  await page.goto(app.url)
  await button(page, 'Let it go from this device: Marram House').click()
  // the note, and before it that this device joined
  await expect(page.getByText(/Not let go: 2 entries of it are only on this device\./)).toBeVisible()
  await page.goto(`${app.url}${EXAMPLE}/brief`)
  await expect(page.getByText(NOTE)).toBeVisible()
  await app.start()
  await page.goto(`${app.url}${EXAMPLE}/brief`)
  await expect(page.getByText(/^All \d+ entries are on the server/).first()).toBeVisible()
  await page.goto(app.url)
  await button(page, 'Let it go from this device: Marram House').click()
  await expect(page.getByText('Not on this device')).toBeVisible()
  await page.goto(`${app.url}${EXAMPLE}/brief`)
  await expect(page.getByText(NOTE)).toBeVisible()
})

test('[OFF5] [OFF6] where the disk is full nothing typed is lost: an entry goes in with what was held back, then it says what to do, and goes in once there is room', async ({
  context,
}) => {
  const page = await context.newPage()
  await visit(page, `${EXAMPLE}/brief`)
  const browser = await context.newCDPSession(page)
  const quota = (quotaSize?: number) =>
    browser.send('Storage.overrideQuotaForOrigin', {
      origin: app.url,
      ...(quotaSize === undefined ? {} : { quotaSize }),
    })
  const MB = 1024 ** 2
  const kept = async (): Promise<number> => (await browser.send('Storage.getUsageAndQuota', { origin: app.url })).usage
  const record = async (text: string) => {
    const dialog = await openNote(page, text)
    await button(dialog, 'Record').click()
    return dialog
  }
  // no room is left but what was held back for entries: one more goes in, and it is said
  await page.waitForFunction(async () => (await (await caches.open('rillmark-reserve')).keys()).length === 1)
  await quota((await kept()) - 3 * MB)
  const first = await record('First of two.')
  await sayWho(page)
  await expect(first).toBeHidden()
  await expect(page.getByText('First of two.')).toBeVisible()
  await expect(page.getByText(/^This device is full/)).toBeVisible()
  // and none at all
  await quota(1)
  await page.reload()
  const dialog = await record(NOTE)
  await expect(dialog.getByRole('alert')).toContainText('room on this device. Nothing typed is lost')
  await expect(field(dialog, 'Text')).toHaveValue(NOTE)
  await quota()
  await button(dialog, 'Record').click()
  await expect(dialog).toBeHidden()
  await page.reload()
  await expect(page.getByText(NOTE).last()).toBeVisible()
  await expect(page.getByText('First of two.')).toBeVisible()
  await expect(page.getByText(/^This device is full/)).toHaveCount(0)
})

test('[OFF7] [OFF8] a newer version waits while something is typed, in any tab; it is offered after, and loads only when asked', async ({
  context,
}) => {
  const page = await context.newPage()
  await visit(page, `${EXAMPLE}/brief`)
  const [offer, other] = [page.getByText('A newer version of Rillmark is on this device.'), await context.newPage()]
  // what is typed holds from the first key on: in this tab what can wait never gets its turn
  await other.addInitScript(() => Object.assign(globalThis, { requestIdleCallback: () => 0 }))
  await other.goto(`${app.url}${EXAMPLE}/brief`)
  const elsewhere = await openNote(other, 'half a sentence')
  await page.evaluate(() => Object.assign(globalThis, { sameDocument: true }))
  const dialog = await openNote(page, NOTE)
  publishNewer(app)
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready
    await registration.update()
    while (registration.waiting === null) await new Promise((again) => setTimeout(again, 50))
  })
  await page.waitForTimeout(3000)
  await expect(offer).toHaveCount(0)
  await button(dialog, 'Cancel').click()
  await expect(offer).toBeVisible()
  await button(page, 'Use it now').click()
  await expect(page.getByText('Another tab is in the middle of something.')).toBeVisible()
  expect(await page.evaluate(() => Reflect.get(globalThis, 'sameDocument'))).toBe(true)
  await button(elsewhere, 'Cancel').click()
  await other.close()
  // the lock of a closed tab goes in its own time
  await expect
    .poll(() => page.evaluate(async () => (await navigator.locks.query()).held?.map(({ name }) => name)))
    .not.toContain('rillmark-at-work')
  await button(page, 'Use it now').click()
  await expect(page.locator('meta[name="newer"]')).toHaveCount(1)
  await expect(page.getByRole('main').getByRole('heading', { level: 1 })).toBeVisible()
})

test('[OFF7] [OFF8] a form that is open holds a newer version back with nothing typed yet; a tab hears that another took it into use from its first moment', async ({
  context,
}) => {
  const page = await context.newPage()
  await visit(page, `${EXAMPLE}/brief`)
  const newer = page.locator('meta[name="newer"]')
  const [before, other] = [await newer.count(), await context.newPage()]
  // here what can wait gets its turn only when told
  await other.addInitScript(() => {
    const waiting: (() => void)[] = []
    Object.assign(globalThis, {
      requestIdleCallback: (run: () => void) => waiting.push(run),
      letIdle: () => {
        for (const run of waiting) run()
      },
    })
  })
  await other.goto(`${app.url}${EXAMPLE}/brief`)
  await button(other, 'Write a note or question').click()
  const form = dialogOf(other, 'Write a note or question')
  await expect(form).toBeVisible()
  publishNewer(app)
  await page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()))
  await button(page, 'Use it now').click()
  await expect(page.getByText('Another tab is in the middle of something.')).toBeVisible()
  await button(form, 'Cancel').click()
  await expect(form).toBeHidden()
  await button(page, 'Use it now').click()
  await expect(newer).toHaveCount(before + 1)
  await other.evaluate(() => (Reflect.get(globalThis, 'letIdle') as () => void)())
  await expect(other.getByText('A newer version of Rillmark is in use in another tab.')).toBeVisible()
})

test('[OFF7] a file in hand that is not accepted yet holds a newer version back', async ({ context }) => {
  const page = await context.newPage()
  await visit(page, `${EXAMPLE}/results`)
  const held = () =>
    page.evaluate(async () =>
      ((await navigator.locks.query()).held ?? []).some(({ name }) => name === 'rillmark-at-work'),
    )
  expect(await held()).toBe(false)
  const csv = { name: 'results.csv', mimeType: 'text/csv', buffer: Buffer.from('Sample,Result\nMRH-0001,100\n') }
  await page.locator('input[type=file]').first().setInputFiles(csv)
  await expect.poll(held).toBe(true)
})

test('[OFF9] a tab whose data a newer version has taken over lets go, says so, and nothing is lost', async ({
  context,
}) => {
  const page = await context.newPage()
  await visit(page, `${EXAMPLE}/brief`)
  const before = await countLinks(page)
  expect(before).toBeGreaterThan(1000)
  // what a tab of a newer version does first
  const other = await context.newPage()
  await other.goto(`${app.url}/mark.svg`)
  await other.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const asked = indexedDB.open('rillmark', 1000)
        asked.addEventListener('success', () => resolve(asked.result.close()))
        asked.addEventListener('error', () => reject(asked.error))
        asked.addEventListener('blocked', () => reject(new Error('the older tab did not let go')))
      }),
  )
  await expect(page.getByRole('alert')).toContainText('this one has let go of what is kept')
  await page.reload()
  await expect(page.getByRole('alert')).toContainText('What is kept here is of a newer version of Rillmark')
  expect(await countLinks(page)).toBe(before)
})

test('[OFF22] what is on this device is listed while the server takes requests and does not answer', async ({
  context,
}) => {
  const page = await context.newPage()
  await visit(page, `${EXAMPLE}/brief`)
  await context.route('**/api/**', () => undefined)
  await page.goto(app.url)
  await expect(page.getByRole('link', { name: /Marram House/ })).toBeVisible({ timeout: 8000 })
})

test('[SYN33] a request that went into a dead network holds nothing up once the network is back', async ({
  context,
}) => {
  const page = await context.newPage()
  await visit(page, `${EXAMPLE}/brief`)
  let asked = 0
  // taken and never answered, as by a connection that died; all after it are answered
  await context.route('**/entries*', async (route) => {
    asked += 1
    if (asked > 1) await route.continue()
  })
  const dialog = await openNote(page, NOTE)
  await button(dialog, 'Record').click()
  await sayWho(page)
  await expect(dialog).toBeHidden()
  await expect.poll(() => asked).toBe(1)
  await expect(page.getByText(/wait/).first()).toBeVisible()
  await page.evaluate(() => dispatchEvent(new Event('online')))
  // long before the request would be given up by itself
  await expect(page.getByText(/^All \d+ entries are on the server/).first()).toBeVisible({ timeout: 20_000 })
})

/** Opens a screen, and waits until the whole app is on this device. */
async function visit(page: Page, path: string): Promise<void> {
  await page.goto(`${app.url}${path}`)
  await expect(page.getByRole('main').getByRole('heading', { level: 1 })).toBeVisible()
  await page.evaluate(() => navigator.serviceWorker.ready)
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null)
  if (path.startsWith('/i/')) await expect(page.getByText(/^All \d+ entries are on the server/).first()).toBeVisible()
}

async function openNote(page: Page, text: string) {
  await button(page, 'Write a note or question').click()
  const dialog = dialogOf(page, 'Write a note or question')
  await field(dialog, 'Text').fill(text)
  return dialog
}

async function writeNote(page: Page, text: string): Promise<void> {
  await page.goto(`${app.url}${EXAMPLE}/brief`)
  const dialog = await openNote(page, text)
  await button(dialog, 'Record').click()
  await sayWho(page)
  await expect(dialog).toBeHidden()
  await expect(page.getByText(text)).toBeVisible()
}

/** The first entry of this device asks whose it is. */
async function sayWho(page: Page): Promise<void> {
  const asked = dialogOf(page, 'Who is writing?')
  await asked.getByRole('textbox').fill('S. Sampler')
  await button(asked, 'Keep this name').click()
}

/** As a new build does: another page under the same name, listed with another revision. */
function publishNewer({ appFolder }: OwnApp): void {
  const [page, worker] = [join(appFolder, 'index.html'), join(appFolder, 'sw.js')]
  writeFileSync(page, readFileSync(page, 'utf8').replace('<head>', '<head><meta name="newer" />'))
  const listed = readFileSync(worker, 'utf8')
  const changed = listed.replace(/(url:"index\.html",revision:")(\w+)/, '$1$2newer')
  expect(changed).not.toBe(listed)
  writeFileSync(worker, changed)
}

function countLinks(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((resolve, reject) => {
        const asked = indexedDB.open('rillmark')
        asked.addEventListener('error', () => reject(asked.error))
        asked.addEventListener('success', () => {
          const count = asked.result.transaction('links').objectStore('links').count()
          count.addEventListener('success', () => {
            asked.result.close()
            resolve(count.result)
          })
        })
      }),
  )
}
