import { type BrowserContext, expect as soon, type Page, test } from '@playwright/test'
import { type OwnApp, startOwnApp } from './job/own-app.ts'
import { button, dialogOf, field } from './job/person.ts'

// The still of the screen shown last, with which the app opens before it is alive. Its server is stopped; the service worker is the one that people get.
test.use({ serviceWorkers: 'allow', viewport: { width: 390, height: 844 } })
test.setTimeout(300_000)
const expect = soon.configure({ timeout: 60_000 })

const EXAMPLE = '/i/marram-house'
const WITH_STILLS = ['brief', 'cases', 'building', 'plan', 'fieldwork', 'results', 'findings']
const NOTE = 'Boiler room locked; the key is with the night porter.'
const HOURS = 3_600_000

let app: OwnApp
test.beforeAll(async () => {
  app = await startOwnApp()
})
test.afterEach(() => app.start())
test.afterAll(() => app.remove())

test('[OFF17] [OFF19] the screen shown last is on the glass before the app is alive, can’t be pressed, and gives way in place', async ({
  context,
}) => {
  const first = await visit(context, `${EXAMPLE}/fieldwork`)
  await first.close()
  await app.stop()
  const page = await openHeld(context, '/open')
  const still = page.locator('#still')
  await expect(still.getByText('Opening …').first()).toBeAttached()
  await expect(still.locator('.bar-below .bar-sync').first()).toHaveText('Opening …')
  await expect(still.locator('h1')).toHaveText('Fieldwork')
  expect(await still.locator('.field-stop').count()).toBeGreaterThan(10)
  expect(await page.locator('#app').innerText()).toBe('')
  // no press reaches anything, by hand or by keyboard; reading on is possible
  const { x = 0, y = 0 } = (await still.locator('.field-stop').nth(2).boundingBox()) ?? {}
  await page.mouse.click(x + 20, y + 10)
  await page.keyboard.press('Tab')
  expect(await page.evaluate(() => document.activeElement?.localName)).toBe('body')
  const shown = await textOf(page, '#still .still-sheet')
  await page.evaluate(() => scrollTo(0, 300))
  const before = await placeOfStop(page)
  await goOn(page)
  await expect(still).toHaveCount(0)
  expect(await placeOfStop(page)).toEqual(before)
  expect(await page.evaluate(() => globalThis.rillmarkStill?.why)).toBe('alive')
  expect(await textOf(page, '#app')).toBe(shown)
  await expect(page.locator('#app .bar-below .bar-sync').first()).toContainText('nothing waits')
})

test('[OFF17] a still says the same at whatever time it was drawn', async ({ context }) => {
  const page = await visit(context, `${EXAMPLE}/fieldwork`)
  const began = Date.now()
  for (const screen of WITH_STILLS) {
    const drawn: (string | undefined)[] = []
    for (const [at, hours] of [0, 5, 24 * 9].entries()) {
      await page.clock.setFixedTime(began + hours * HOURS)
      await page.goto(`${app.url}${EXAMPLE}/${screen}`)
      await expect(page.getByText(/^All \d+ entries are on the server/).first()).toBeAttached()
      const still = await drawnAtWidth(page, 391 + at)
      expect(still.place).toBe(`${EXAMPLE}/${screen}`)
      drawn.push(still.html.replaceAll(/ data-style="[^"]*"/g, ''))
    }
    expect(drawn[1], screen).toBe(drawn[0])
    expect(drawn[2], screen).toBe(drawn[0])
  }
})

test('[OFF17] what is typed and not kept is not in a still', async ({ context }) => {
  const page = await visit(context, `${EXAMPLE}/building`)
  const typed = page
    .locator('#app main')
    .getByRole('textbox')
    .or(page.locator('#app main').getByRole('searchbox'))
    .first()
  await typed.fill('half typed')
  const still = await drawnAtWidth(page, 391)
  await expect(typed).toHaveValue('half typed')
  expect(still.place).toBe(`${EXAMPLE}/building`)
  expect(still.html).not.toContain('half typed')
})

test('[OFF18] what is written drops the still at once; the next opening shows it or nothing, never the record as it was', async ({
  context,
}) => {
  const page = await visit(context, `${EXAMPLE}/brief`)
  expect((await keptStill(page))?.html).not.toContain(NOTE)
  // so that no new one is drawn in this page
  await page.evaluate(() => Object.defineProperty(document, 'querySelector', { value: () => document.body }))
  await app.stop()
  await writeNote(page, NOTE)
  expect(await keptStill(page)).toBeUndefined()
  await page.close()
  const again = await openHeld(context, '/open')
  await expect(again.getByText(NOTE)).toBeVisible()
  expect(await again.evaluate(() => globalThis.rillmarkStill)).toBeUndefined()
  await expect.poll(async () => (await keptStill(again))?.html).toContain(NOTE)
  await again.close()
  const third = await openHeld(context, '/open')
  await expect(third.locator('#still')).toContainText(NOTE)
  await goOn(third)
  await expect(third.locator('#still')).toHaveCount(0)
  await expect(third.getByText(NOTE)).toBeVisible()
})

test('[OFF17] once what was written here has reached the server, the screen is kept again as the record then stands', async ({
  context,
}) => {
  const page = await visit(context, `${EXAMPLE}/brief`)
  const links = (await keptStill(page))?.links ?? 0
  const { promise: network, resolve: letThrough } = Promise.withResolvers<undefined>()
  await context.route('**/entries', async (route) => {
    if (route.request().method() === 'POST') await network
    await route.continue()
  })
  await writeNote(page, 'Ask for the key at the gate.')
  await expect.poll(async () => (await keptStill(page))?.waiting.length).toBeGreaterThan(0)
  letThrough(undefined)
  await expect.poll(async () => (await keptStill(page))?.waiting).toEqual([])
  const still = await keptStill(page)
  expect(still?.links).toBeGreaterThan(links)
  expect(still?.html).toContain('Ask for the key at the gate.')
})

test('[OFF17] a still of another build, another width, other settings or another address, or of a device that is out, is not shown', async ({
  context,
}) => {
  const page = await visit(context, `${EXAMPLE}/brief`)
  await page.close()
  await app.stop()
  for (const change of [{ build: 'another' }, { width: 391 }, { settings: '[]' }, { links: 1 }, { waiting: ['x'] }]) {
    const plain = await context.newPage()
    await plain.goto(`${app.url}/mark.svg`)
    const was = await keptStill(plain)
    await putStill(plain, { ...was, ...change })
    const opened = await openHeld(context, '/open')
    await expect(opened.getByRole('main').getByRole('heading', { level: 1 })).toBeVisible()
    expect(await opened.evaluate(() => globalThis.rillmarkStill), JSON.stringify(change)).toBeUndefined()
    await opened.close()
    await putStill(plain, was)
    await plain.close()
  }
  // nor where the server last said that it does not let this device in
  const told = await context.newPage()
  await told.goto(`${app.url}/mark.svg`)
  await told.evaluate(() => localStorage.setItem('rillmark.not-let-in', 'true'))
  await told.close()
  const out = await openHeld(context, '/open')
  await expect(out.getByRole('main').getByRole('heading', { level: 1 })).toBeVisible()
  expect(await out.evaluate(() => globalThis.rillmarkStill)).toBeUndefined()
  const elsewhere = await openHeld(context, `${EXAMPLE}/cases`)
  await expect(elsewhere.getByRole('main').getByRole('heading', { level: 1 })).toBeVisible()
  expect(await elsewhere.evaluate(() => globalThis.rillmarkStill)).toBeUndefined()
})

test('[OFF19] an app that does not start does not leave its still as if it were alive: it says so', async ({
  context,
}) => {
  const first = await visit(context, `${EXAMPLE}/brief`)
  await first.close()
  await app.stop()
  const page = await openHeld(context, '/open')
  await expect(page.locator('#still')).toBeVisible()
  await goOn(page, { failing: true })
  await expect(page.getByRole('alert')).toContainText('Rillmark could not start')
  await expect(page.locator('#still')).toHaveCount(0)
  await expect(button(page, 'Load it again')).toBeVisible()
})

test('[OFF19] what a still must not hold is not set up', async ({ context }) => {
  const first = await visit(context, `${EXAMPLE}/brief`)
  await first.close()
  await app.stop()
  const plain = await context.newPage()
  await plain.goto(`${app.url}/mark.svg`)
  const was = await keptStill(plain)
  await putStill(plain, { ...was, html: `<main><h1>Brief</h1><script>alert(1)</script></main>` })
  const page = await openHeld(context, '/open')
  await goOn(page)
  await expect(page.getByRole('main').getByRole('heading', { level: 1 })).toBeVisible()
  expect(await page.evaluate(() => globalThis.rillmarkStill)).toBeUndefined()
})

interface Kept {
  readonly place: string
  readonly width: number
  readonly html: string
  readonly links: number
  readonly waiting: readonly string[]
}

/** A still that was drawn after now: of a width the window had not before. */
async function drawnAtWidth(page: Page, width: number): Promise<Kept> {
  await page.setViewportSize({ width, height: 844 })
  await expect.poll(async () => (await keptStill(page))?.width).toBe(width)
  const still = await keptStill(page)
  if (still?.width !== width) throw new TypeError('Cannot read the still because it has gone again')
  return still
}

/** Writes a note, as the first by this browser; it is kept here when this is over. */
async function writeNote(page: Page, text: string): Promise<void> {
  await button(page, 'Write a note or question').click()
  const dialog = dialogOf(page, 'Write a note or question')
  await field(dialog, 'Text').fill(text)
  await button(dialog, 'Record').click()
  const asked = dialogOf(page, 'Who is writing?')
  await asked.getByRole('textbox').fill('S. Sampler')
  await button(asked, 'Keep this name').click()
  // the words stand in the field from the start; once the dialog has gone the note is kept
  await expect(dialog).toHaveCount(0)
  await expect(page.getByText(text)).toBeVisible()
}

/** Opens a screen, and waits until the app, the record and the still of it are on this device. */
async function visit(context: BrowserContext, path: string): Promise<Page> {
  const page = await context.newPage()
  await page.goto(`${app.url}${path}`)
  await expect(page.getByText(/^All \d+ entries are on the server/).first()).toBeAttached()
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null)
  await expect.poll(async () => (await keptStill(page))?.place).toBe(path)
  return page
}

/** A page whose scripts come only when `goOn` is called. What speaks against the policy of the page fails the test. */
async function openHeld(context: BrowserContext, path: string): Promise<Page> {
  const page = await context.newPage()
  await page.addInitScript(() => {
    const append = Element.prototype.append
    Element.prototype.append = function held(this: Element, ...nodes: (Node | string)[]) {
      const [node] = nodes
      const way = (): unknown => Reflect.get(globalThis, 'goOn')
      if (!(node instanceof HTMLScriptElement) || document.getElementById('still') === null) {
        append.apply(this, nodes)
        return
      }
      const wait = (): void => {
        if (way() === undefined) setTimeout(wait, 20)
        else if (way() === 'failing') node.dispatchEvent(new Event('error'))
        else append.call(this, node)
      }
      wait()
    }
  })
  page.on('console', (message) => expect(message.text()).not.toContain('Content Security Policy'))
  await page.goto(`${app.url}${path}`)
  return page
}

async function goOn(page: Page, { failing = false }: { readonly failing?: boolean } = {}): Promise<void> {
  await page.evaluate((how) => Object.assign(globalThis, { goOn: how }), failing ? 'failing' : 'as it is')
}

/** What is said, but for what a still leaves out. */
function textOf(page: Page, selector: string): Promise<string> {
  return page.evaluate((of) => {
    const copy = document.querySelector(of)?.cloneNode(true) as Element
    const left = '[data-still="blank"], [data-still="opening"], select, .toasts, .app-line'
    for (const each of copy.querySelectorAll(left)) each.remove()
    return copy.textContent.replaceAll(/\s+/g, ' ')
  }, selector)
}

function placeOfStop(page: Page): Promise<readonly [number | undefined, number]> {
  return page.evaluate(() => {
    const [, , third] = document.querySelectorAll('.field-stop')
    return [third?.getBoundingClientRect().top, scrollY] as const
  })
}

/** The still of the example as this browser keeps it. */
function keptStill(page: Page): Promise<Kept | undefined> {
  return page.evaluate(
    () =>
      new Promise<Kept | undefined>((resolve, reject) => {
        const asked = indexedDB.open('rillmark')
        asked.addEventListener('error', () => reject(asked.error))
        asked.addEventListener('success', () => {
          const reading = asked.result.transaction('device').objectStore('device').get('still marram-house')
          reading.addEventListener('success', () => {
            asked.result.close()
            resolve(reading.result === undefined ? undefined : (JSON.parse(reading.result as string) as Kept))
          })
        })
      }),
  )
}

function putStill(page: Page, still: unknown): Promise<void> {
  return page.evaluate(
    (text) =>
      new Promise<void>((resolve, reject) => {
        const asked = indexedDB.open('rillmark')
        asked.addEventListener('error', () => reject(asked.error))
        asked.addEventListener('success', () => {
          const writing = asked.result.transaction('device', 'readwrite')
          writing.objectStore('device').put(text, 'still marram-house')
          writing.addEventListener('complete', () => {
            asked.result.close()
            resolve()
          })
        })
      }),
    JSON.stringify(still),
  )
}
