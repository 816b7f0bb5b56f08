import type { Page } from '@playwright/test'
import { captureUntilKilled, openStop, type Shown } from './capture.ts'
import { type CutProxy, cutProxy, plannedCuts } from './cut-proxy.ts'
import { brokenInBrowser, deviceIn } from './kept-in-browser.ts'
import { type KillableBrowser, openBrowser } from './killable-browser.ts'
import { brokenOnServer } from './kept-on-server.ts'
import { planVisit } from './plan-visit.ts'
import { Requests } from './requests.ts'
import { type Chance, chance } from './seed.ts'

const MOST_KEPT = 4
const LONGEST_ACT_MS = 300
const LONGEST_LIFE_MS = 20_000
/** Then another investigation in the same profile: a long one would make every start slower and prove nothing more. */
const KILLS_A_RECORD = 20
const UNTIL_SYNCED_MS = 120_000

export interface BrowserOutcome {
  readonly kills: number
  readonly notes: number
  readonly photos: number
  /** times the browser lost its whole database */
  readonly losses: number
  readonly faults: readonly string[]
}

/** One profile, killed again and again while a person writes and the network comes and goes. */
export class BrowserLane {
  readonly #profile: string
  readonly #server: string
  readonly #chance: Chance
  readonly #part: number
  /** What was begun to be written into any record of the profile. */
  readonly #tried: string[] = []
  #device: string | undefined
  #losses = 0

  constructor({ profile, server, part }: { profile: string; server: string; part: number }) {
    this.#profile = profile
    this.#server = server
    this.#part = part
    this.#chance = chance(part)
  }

  async run(wanted: number): Promise<BrowserOutcome> {
    const plan = plannedCuts(chance(this.#part + 1), { most: 400_000 })
    const proxy = await cutProxy({ target: () => this.#server, plan })
    const faults: string[] = []
    let [kills, notes, photos] = [0, 0, 0]
    try {
      for (let record = 1; kills < wanted && faults.length === 0; record += 1) {
        const lives = Math.min(KILLS_A_RECORD, wanted - kills)
        const done = await this.#oneRecord(`faults-browser-${this.#part}-${record}`, { lives, proxy })
        faults.push(...done.faults)
        for (const fault of done.faults) process.stdout.write(`browser lane ${this.#part}: ${fault}\n`)
        process.stdout.write(`browser lane ${this.#part}: ${kills + lives} kills, ${faults.length} faults\n`)
        ;[kills, notes, photos] = [kills + lives, notes + done.shown.notes.length, photos + done.shown.photos.length]
      }
    } finally {
      await proxy.close()
    }
    return { kills, notes, photos, losses: this.#losses, faults }
  }

  async #oneRecord(investigation: string, { lives, proxy }: { lives: number; proxy: CutProxy }) {
    const shown: Shown = { notes: [], photos: [] }
    const tried = this.#tried
    const address = `${proxy.url}/i/${investigation}/fieldwork`
    await planVisit(investigation, new Requests(() => this.#server))
    const faults: string[] = []
    for (let life = 1; life <= lives && faults.length === 0; life += 1) {
      proxy.mode = 'through'
      const browser = await openBrowser(this.#profile)
      try {
        await openStop(browser.page, address)
        const broken = await this.#broken(browser.page, { investigation, shown, tried })
        faults.push(...broken.map((fault) => `life ${life}: ${fault}`))
        proxy.mode = this.#chance.pick(['through', 'through', 'cutting', 'away'] as const)
        await this.#liveAndDie(browser, { life: `life ${investigation.slice(-3)}.${life}`, shown, tried })
      } finally {
        await browser.kill()
      }
    }
    proxy.mode = 'through'
    faults.push(...(await this.#arrived(investigation, { address, shown, tried })))
    return { shown, faults }
  }

  /**
   * What was shown as kept and is not here; once the browser has lost its whole database, which a kill in the middle of a write can do to
   * Chromium, what is nowhere: what had been sent by then is only on the server.
   */
  async #broken(
    page: Page,
    { investigation, shown, tried }: { investigation: string; shown: Shown; tried: readonly string[] },
  ): Promise<string[]> {
    const before = this.#device
    this.#device = await deviceIn(page)
    if (before === undefined || this.#device === before) return brokenInBrowser(page, { shown, tried })
    this.#losses += 1
    await arrived(page)
    return brokenOnServer(new Requests(() => this.#server), { investigation, shown })
  }

  async #liveAndDie(
    { page, kill }: KillableBrowser,
    of: { life: string; shown: Shown; tried: string[] },
  ): Promise<void> {
    let failure: unknown
    const capture = captureUntilKilled(page, { ...of, chance: this.#chance }).catch(
      (error: unknown) => (failure = error),
    )
    await this.#untilTheEnd(of.shown, () => failure !== undefined)
    // what stopped before the kill was not stopped by it
    if (failure !== undefined) throw failure
    await kill()
    await capture
  }

  /** So many things are kept, as chance will have it, and then so much of the next. */
  async #untilTheEnd(shown: Shown, over: () => boolean): Promise<void> {
    const kept = (): number => shown.notes.length + shown.photos.length
    const enough = kept() + this.#chance.between(0, MOST_KEPT)
    const late = performance.now() + LONGEST_LIFE_MS
    while (kept() < enough && performance.now() < late && !over()) await pause(5)
    await pause(this.#chance.between(0, LONGEST_ACT_MS))
  }

  /** Everything reaches the server once, and the app says so. */
  async #arrived(
    investigation: string,
    { address, shown, tried }: { address: string; shown: Shown; tried: readonly string[] },
  ): Promise<string[]> {
    const { page, kill } = await openBrowser(this.#profile)
    try {
      await openStop(page, address)
      await arrived(page)
      const faults = await this.#broken(page, { investigation, shown, tried })
      return [...faults, ...(await brokenOnServer(new Requests(() => this.#server), { investigation, shown }))]
    } finally {
      await kill()
    }
  }
}

async function arrived(page: Page): Promise<void> {
  const said = page.getByRole('status').filter({ hasText: /^All \d+ entries are on the server$/ })
  await said.first().waitFor({ timeout: UNTIL_SYNCED_MS, state: 'attached' })
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))
