import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import { type Finding, LAYERS, type Verdict } from '@rillmark/exchange/verify/verdict.ts'
import { type GivenFile, verifyFiles } from '@rillmark/exchange/verify/verify-files.ts'
import { webCryptoCheck } from '@rillmark/exchange/verify/web-crypto-check.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { type Browser, expect as soon, type Page, test } from '@playwright/test'
import { strToU8, unzipSync } from 'fflate'
import { relist, zipped } from '../../checks/tampering/contents.ts'
import { head, sound } from '../../checks/tampering/package-way.ts'
import { filesOf, howMany, packageWays, receiptWays, recordWays } from '../../checks/tampering/ways.ts'
import { sound as soundRecord } from '../../checks/tampering/way.ts'
import { largePackage } from './job/many-entries.ts'

// The page inside every package, opened from a disk as a lab or an opponent does: no server, no network. It must say what the command says.
test.setTimeout(300_000)
const expect = soon.configure({ timeout: 120_000 })
const PAGE = pathToFileURL(join(import.meta.dirname, '../../packages/web/dist/verify.html')).href
const BATCH = 60
const checkSignature = webCryptoCheck()
const folder = mkdtempSync(join(tmpdir(), 'rillmark-verifier-'))
test.afterAll(() => rmSync(folder, { recursive: true, force: true }))
const headText = `${head.sequence}:${head.hash}`

test('[PRF10] every way of tampering is caught by the page as by the command, named and in its words', async ({
  browser,
}) => {
  const { page, asked } = await opened(browser)
  const ways = await packageWays()
  let seen = 0
  for (let from = 0; from < ways.length; from += BATCH) {
    const batch = ways.slice(from, from + BATCH)
    const shown = await agree(
      page,
      batch.map(({ file, tamper }) => ({ name: nameOf(file), bytes: tamper() })),
    )
    for (const { file, layer, names, needs } of batch) {
      const { verdict, faults } = shown.get(nameOf(file)) ?? {}
      if (needs === undefined) {
        expect(inLayer(verdict, layer), file).toContain(names)
        expect(faults?.join('\n'), file).toContain(LAYERS[layer])
      } else expect(verdict?.findings, file).toEqual([])
      if (needs === 'caution') expect(verdict?.cautions.join('\n'), file).toContain(names)
      seen += 1
    }
  }
  const receipts = await receiptWays()
  for (const { file, tamper, names } of receipts) {
    const shown = await agree(page, filesOf(tamper()))
    const found = [...shown.values()].map(({ verdict }) => inLayer(verdict, 'receipt')).join('\n')
    expect(found, file).toContain(names)
    seen += 1
  }
  const records = await recordWays()
  for (let from = 0; from < records.length; from += BATCH) {
    const batch = records.slice(from, from + BATCH)
    const shown = await agree(
      page,
      batch.map(({ file, tamper }) => ({ name: nameOf(file), bytes: packed(tamper(soundRecord)) })),
    )
    for (const { file, needsHead, breaksAt } of batch) {
      const { verdict } = shown.get(nameOf(file)) ?? {}
      if (needsHead === true) expect(inLayer(verdict, 'manifest'), file).toContain('manifest.json head')
      else expect(inLayer(verdict, 'record'), file).toContain(`entry ${breaksAt}:`)
    }
    seen += batch.length
  }
  expect(seen).toBe(howMany())
  expect(asked()).toEqual([])
  await page.close()
})

test('[PRF10] what is sound is said to be, with what that can’t tell; a known head betrays what is sound in itself', async ({
  browser,
}) => {
  const { page, asked } = await opened(browser)
  const [ok] = (await agree(page, [{ name: 'ok.zip', bytes: sound }])).values()
  expect(ok).toMatchObject({ headline: 'Sound package', faults: [], verdict: { sound: true } })
  await page.getByText('I know a head from a printed report').click()
  const field = page.getByLabel('Number and hash, as NUMBER:HASH')
  await field.fill('22:abc')
  await field.blur()
  await expect(page.getByRole('alert')).toContainText('Expected NUMBER:HASH')
  await field.fill(headText)
  await field.blur()
  const betrayed = (await packageWays()).filter(({ needs }) => needs === 'head')
  expect(betrayed.length).toBeGreaterThan(10)
  const shown = await agree(
    page,
    [
      { name: 'ok.zip', bytes: sound },
      ...betrayed.map(({ file, tamper }) => ({ name: nameOf(file), bytes: tamper() })),
    ],
    head,
  )
  for (const { file, names } of betrayed)
    expect(inLayer(shown.get(nameOf(file))?.verdict, 'head'), file).toContain(names)
  expect(shown.get('ok.zip')).toMatchObject({ headline: 'Sound package', verdict: { sound: true } })
  expect(asked()).toEqual([])
  await page.close()
})

test('[PRF10] 50,000 entries are verified while the page stays awake and says how far it is; files brought meanwhile count instead', async ({
  browser,
}) => {
  const { page, asked } = await opened(browser)
  const { bytes, entries } = largePackage(50_000)
  const file = onDisk([{ name: 'long.zip', bytes }])
  await page.locator('#files').setInputFiles(file)
  await expect(page.getByRole('status')).toContainText('Checking signatures')
  // someone drops another file on it: the long one is let go
  const [other] = (await agree(page, [{ name: 'ok.zip', bytes: sound }])).values()
  expect(other?.verdict.sound).toBe(true)

  await watchSleep(page)
  const began = performance.now()
  await page.locator('#files').setInputFiles(file)
  await expect(page.getByRole('status')).toContainText(new RegExp(`Checking signatures: \\d+ of ${entries}`))
  await page.locator('.verdict').waitFor({ timeout: 240_000 })
  const tookS = (performance.now() - began) / 1000
  const { longestMs, told } = await page.evaluate(() => Reflect.get(globalThis, 'sleep') as Sleep)
  const [shown] = (await verdictsOn(page)).values()
  expect(shown).toMatchObject({ headline: 'Sound package', faults: [] })
  expect(shown?.verdict.facts).toMatchObject({ entries, signed: entries, unsigned: 0 })
  expect(told.length).toBeGreaterThan(50)
  // that it stays awake is the promise; a page that did the work itself would be asleep for most of it, one on a busy machine never for so long
  expect(longestMs, `the page was asleep for ms, of ${tookS.toFixed(1)} s`).toBeLessThan((tookS * 1000) / 3)
  const memory = await peakMemoryMB(browser)
  process.stdout.write(
    `verifier page: ${entries} signed entries, ${(bytes.length / 1e6).toFixed(1)} MB: ${tookS.toFixed(1)} s, longest pause ${longestMs.toFixed(0)} ms, peak memory ${memory}\n`,
  )
  expect(asked()).toEqual([])
  await page.close()
})

async function opened(browser: Browser): Promise<{ page: Page; asked: () => string[] }> {
  const context = await browser.newContext({ offline: true })
  const page = await context.newPage()
  const asked: string[] = []
  page.on('request', (request) => {
    if (!request.url().startsWith('blob:')) asked.push(request.url())
  })
  page.on('pageerror', ({ message }) => asked.push(`script: ${message}`))
  page.on('console', (message) => {
    if (message.type() === 'error') asked.push(`console: ${message.text()}`)
  })
  await page.goto(PAGE)
  // the page itself, and nothing ever after
  return { page, asked: () => asked.filter((url) => url !== PAGE) }
}

interface Shown {
  readonly headline: string
  readonly faults: readonly string[]
  readonly verdict: Verdict
}

/** Brings files to the page; what it shows must be the verdict of the function the command calls. */
async function agree(page: Page, files: readonly GivenFile[], known?: typeof head): Promise<Map<string, Shown>> {
  await page.locator('#files').setInputFiles(onDisk(files))
  const wanted = await verifyFiles(files, { checkSignature, head: known })
  await expect(page.locator('.verdict')).toHaveCount(files.length)
  const shown = await verdictsOn(page)
  for (const { name, verdict } of wanted) {
    const one = shown.get(name)
    expect(one?.verdict, name).toEqual(JSON.parse(JSON.stringify(verdict)))
    expect(one?.headline.startsWith('Sound'), name).toBe(verdict.sound)
    expect(one?.faults, name).toEqual(verdict.findings.slice(0, 100).map(told))
  }
  return shown
}

/** Each time in a folder of its own: receipts have the same names again and again. */
function onDisk(files: readonly GivenFile[]): string[] {
  const place = mkdtempSync(join(folder, 'given-'))
  return files.map(({ name, bytes }) => {
    writeFileSync(join(place, name), bytes)
    return join(place, name)
  })
}

async function verdictsOn(page: Page): Promise<Map<string, Shown>> {
  const parts = await page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('.verdict')].map((part) => ({
      name: part.querySelector('.file')?.textContent ?? '',
      headline: part.querySelector('h2')?.textContent ?? '',
      faults: [...part.querySelectorAll('.faults li')].map(({ textContent }) => textContent ?? ''),
      verdict: JSON.parse(part.dataset['verdict'] ?? '') as unknown,
    })),
  )
  return new Map(parts.map(({ name, ...rest }) => [name, rest as Shown]))
}

function told({ layer, path, expected, received }: Finding): string {
  return `${LAYERS[layer]}${path === '' ? '' : `: ${path}`}expected ${expected}, received ${received}`
}

function inLayer(verdict: Verdict | undefined, layer: Finding['layer']): string {
  const found = (verdict?.findings ?? []).filter((finding) => finding.layer === layer)
  return found.map(({ path, expected, received }) => `${layer} ${path}: ${expected} / ${received}`).join('\n')
}

const nameOf = (file: string): string => file.replace('/', '--').replace(/\.ts$/, '.zip')

/** A bare record, tampered with, in a package that lists it as it is and names the head of the record before. */
function packed(record: readonly unknown[] | string): Uint8Array {
  const files = unzipSync(writePackage(soundRecord.links, { attachments: new Map() }))
  const text = typeof record === 'string' ? record : record.map((link) => `${lineOf(link)}\n`).join('')
  files['entries.jsonl'] = strToU8(text)
  relist(files)
  return zipped(files)
}

/** What has no canonical JSON is written as a careless forger would. */
function lineOf(link: unknown): string {
  try {
    return canonicalJson(link)
  } catch {
    return JSON.stringify(link)
  }
}

interface Sleep {
  longestMs: number
  readonly told: string[]
}

/** Watches how long the page can't answer, and what it says of its progress. */
async function watchSleep(page: Page): Promise<void> {
  await page.evaluate(() => {
    const sleep: Sleep = { longestMs: 0, told: [] }
    Reflect.set(globalThis, 'sleep', sleep)
    let last = performance.now()
    setInterval(() => {
      const now = performance.now()
      sleep.longestMs = Math.max(sleep.longestMs, now - last)
      last = now
    }, 10)
    const status = document.querySelector('[role="status"]')
    if (status !== null)
      new MutationObserver(() => sleep.told.push(status.textContent ?? '')).observe(status, {
        childList: true,
        characterData: true,
        subtree: true,
      })
  })
}

/** The most any page of this browser held, as Linux counts it. */
async function peakMemoryMB(browser: Browser): Promise<string> {
  const session = await browser.newBrowserCDPSession()
  const { processInfo } = await session.send('SystemInfo.getProcessInfo')
  await session.detach()
  const peaks = processInfo.flatMap(({ id, type }) => (type === 'renderer' ? [peakKB(id)] : []))
  const most = Math.max(...peaks)
  return Number.isNaN(most) ? 'not known here' : `${(most / 1024).toFixed(0)} MB`
}

function peakKB(process: number): number {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${process}/status`, 'utf8'))?.[1])
  } catch {
    return Number.NaN
  }
}
