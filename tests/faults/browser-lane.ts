import { createHash } from 'node:crypto'
import type { Link } from '@rillmark/casebook/chain/link.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { DemoDesk } from '../../demo/desk.ts'
import { openInvestigation } from '../../demo/scenario/brief.ts'
import { describeBuilding } from '../../demo/scenario/building.ts'
import { adoptPlan } from '../../demo/scenario/plan.ts'
import { registerInstruments } from '../../demo/scenario/visit.ts'
import { captureUntilKilled, openStop, type Shown } from './capture.ts'
import { type CutProxy, cutProxy, plannedCuts } from './cut-proxy.ts'
import { brokenInBrowser } from './kept-in-browser.ts'
import { type KillableBrowser, openBrowser } from './killable-browser.ts'
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
    return { kills, notes, photos, faults }
  }

  async #oneRecord(investigation: string, { lives, proxy }: { lives: number; proxy: CutProxy }) {
    const shown: Shown = { notes: [], photos: [] }
    const tried = this.#tried
    const address = `${proxy.url}/i/${investigation}/fieldwork`
    await this.#plan(investigation)
    const faults: string[] = []
    for (let life = 1; life <= lives && faults.length === 0; life += 1) {
      proxy.mode = 'through'
      const browser = await openBrowser(this.#profile)
      try {
        await openStop(browser.page, address)
        faults.push(...(await brokenInBrowser(browser.page, { shown, tried })).map((fault) => `life ${life}: ${fault}`))
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
      const said = page.getByRole('status').filter({ hasText: /^All \d+ entries are on the server$/ })
      await said.first().waitFor({ timeout: UNTIL_SYNCED_MS, state: 'attached' })
      const faults = await brokenInBrowser(page, { shown, tried })
      return [...faults, ...(await this.#onServer(investigation, shown))]
    } finally {
      await kill()
    }
  }

  async #onServer(investigation: string, { notes, photos }: Shown): Promise<string[]> {
    const requests = new Requests(() => this.#server)
    const links = (await requests.pull(investigation, 0)).links
    const verdict = verifyChain(links, { investigation })
    const faults = verdict.sound ? [] : [`${investigation} ${verdict.sequence}: ${verdict.reason}`]
    for (const text of [...notes, ...photos.map(({ shows }) => shows)])
      if (links.filter((link) => says(link, text)).length !== 1) faults.push(`${text} is not on the server once`)
    for (const { sha256, shows } of photos)
      if (
        createHash('sha256')
          .update(await requests.attachment(sha256))
          .digest('hex') !== sha256
      )
        faults.push(`photo ${shows} is damaged on the server`)
    return faults
  }

  async #plan(investigation: string): Promise<void> {
    const desk = new DemoDesk(investigation)
    openInvestigation(desk)
    describeBuilding(desk)
    adoptPlan(desk, { code: 'R1', at: '2026-03-03T16:10', scheduledOn: '2026-03-04', samples: 30 })
    registerInstruments(desk)
    const { refused } = await new Requests(() => this.#server).push(investigation, desk.entries)
    if (refused.length > 0) throw new Error(`the plan was refused: ${JSON.stringify(refused)}`)
  }
}

function says({ entry }: Link, text: string): boolean {
  if (entry.kind === 'photo.taken') return entry.body.shows === text
  return entry.kind === 'note.written' && entry.body.text.split(': ').at(-1) === text
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))
