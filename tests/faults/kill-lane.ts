import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { IngestDevice } from './ingest-device.ts'
import { broken, brokenRecord, together } from './kept-promises.ts'
import { Requests } from './requests.ts'
import { type Chance, chance } from './seed.ts'
import { type ServerProcess, startServer } from './server-process.ts'

const DEVICES = 3
/** No server listens there (TCP port 9, discard). */
const NOBODY = 'http://127.0.0.1:9'
const LONGEST_LIFE_MS = 150
const LONGEST_WRITE_MS = 4
const MOST_WAIT_MS = 5000
const STARTS_A_KILLED_START = 12
/** Then another record: a long one would make every start slower and prove nothing more. */
const KILLS_A_RECORD = 25

export interface LaneOutcome {
  readonly kills: number
  /** of these, the kills while a write was under way */
  readonly inFlight: number
  readonly entries: number
  readonly photos: number
  readonly faults: readonly string[]
}

/** One data folder and its server, killed again and again while devices write. */
export class KillLane {
  readonly #name: string
  readonly #folder: string
  readonly #chance: Chance
  readonly #devices: IngestDevice[]
  readonly #requests: Requests
  #server: ServerProcess | undefined
  /** what servers wrote to their log: a kill is no reason to */
  readonly #troubles: string[] = []
  #checked = 0
  #checkedPhotos = 0

  constructor({ name, folder, part }: { name: string; folder: string; part: number }) {
    this.#name = name
    this.#folder = folder
    this.#chance = chance(part)
    const url = () => this.#server?.url ?? NOBODY
    this.#requests = new Requests(url)
    this.#devices = Array.from({ length: DEVICES }, (_, n): IngestDevice => {
      const shared = () => this.#devices?.[(n + 1) % DEVICES]?.photo
      return new IngestDevice({ name: `${name}-phone-${n}`, url, chance: chance(part * 100 + n), shared })
    })
  }

  /** Kills until so many kills came while a write was under way. */
  async run(wanted: number): Promise<LaneOutcome> {
    const faults: string[] = []
    let [kills, inFlight] = [0, 0]
    for (let record = 1; inFlight < wanted && faults.length === 0; record += 1) {
      const investigation = `${this.#name}-${record}`
      for (const device of this.#devices) device.begin(investigation)
      for (let n = 0; n < KILLS_A_RECORD && inFlight < wanted && faults.length === 0; n += 1) {
        if (await this.#liveAndDie()) inFlight += 1
        kills += 1
        this.#server = await this.#start()
        faults.push(...(await this.#newlyBroken()))
      }
      faults.push(...(await this.#finished(investigation)))
      process.stdout.write(`${investigation}: ${kills} kills, ${inFlight} during a write, ${faults.length} faults\n`)
    }
    faults.push(...(await this.#allPhotos()), ...this.#strayFiles())
    await this.#server?.kill()
    const { entries, photos } = this.#acknowledged()
    return { kills, inFlight, entries: entries.length, photos: new Set(photos).size, faults }
  }

  /** True when the kill came while a write was not answered yet. */
  async #liveAndDie(): Promise<boolean> {
    this.#server ??= await this.#start()
    await this.#writing()
    await pause(this.#chance.between(0, LONGEST_LIFE_MS))
    await this.#writing()
    await pause(this.#chance.between(0, LONGEST_WRITE_MS))
    const inFlight = this.#isWriting()
    await this.#server.kill()
    if (this.#server.troubles() !== '') this.#troubles.push(this.#server.troubles())
    return inFlight
  }

  #isWriting(): boolean {
    return this.#devices.some(({ requests }) => requests.writing > 0)
  }

  /** Until a write has been sent and not been answered; not for ever. */
  async #writing(): Promise<void> {
    const late = performance.now() + MOST_WAIT_MS
    while (!this.#isWriting() && performance.now() < late) await pause(1)
  }

  /** A start; now and then one that is killed before it is over goes first. */
  async #start(): Promise<ServerProcess> {
    if (this.#chance.oneIn(STARTS_A_KILLED_START)) {
      const starting = startServer({
        dataFolder: this.#folder,
        killAfterMs: this.#chance.between(50, 1500),
      })
      await (await starting.catch(() => undefined))?.kill()
    }
    return startServer({ dataFolder: this.#folder })
  }

  /** Looks for what was acknowledged since the last look. */
  async #newlyBroken(): Promise<string[]> {
    const { entries, photos } = this.#acknowledged()
    const fresh = { entries: entries.slice(this.#checked), photos: photos.slice(this.#checkedPhotos) }
    ;[this.#checked, this.#checkedPhotos] = [entries.length, photos.length]
    return [...(await broken(fresh, this.#requests)), ...this.#failures()]
  }

  async #finished(investigation: string): Promise<string[]> {
    if (this.#failures().length > 0) return []
    for (const device of this.#devices) await device.finish()
    // a device that had finished before the last one wrote pulls once more
    for (const device of this.#devices) await device.finish()
    const heads = await Promise.all(this.#devices.map(({ replica }) => replica.head(investigation)))
    const faults = await brokenRecord(investigation, { acknowledged: this.#acknowledged(), requests: this.#requests })
    const { head } = await this.#requests.pull(investigation, 0)
    if (heads.some(({ hash }) => hash !== head.hash)) faults.push(`${investigation}: the copies differ`)
    return faults
  }

  async #allPhotos(): Promise<string[]> {
    return broken({ entries: [], photos: this.#acknowledged().photos }, this.#requests)
  }

  /** What lies in the folder beside whole photos and those under way. */
  #strayFiles(): string[] {
    const files = readdirSync(join(this.#folder, 'attachments'), { recursive: true, withFileTypes: true })
    return files.filter((each) => each.isFile() && !/^[0-9a-f]{64}$/.test(each.name)).map(({ name }) => `stray ${name}`)
  }

  #failures(): string[] {
    const failed = this.#devices.flatMap(({ failure }) => (failure === undefined ? [] : [String(failure)]))
    return [...failed, ...this.#troubles]
  }

  #acknowledged() {
    return together(this.#devices.map(({ acknowledged }) => acknowledged))
  }
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))
