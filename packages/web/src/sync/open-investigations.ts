import { forgetPlace } from '../offline/last-place.ts'
import { type DeviceParts, LocalInvestigation } from './open-investigation.ts'

/** What the tabs of one browser tell each other: that something of an investigation was kept, or that its copy was let go. */
type Told = string | { readonly letGo: string }

/** The investigations this tab has read, each once, in step with the other tabs of the browser. */
export class OpenInvestigations {
  readonly #parts: DeviceParts
  readonly #channel = new BroadcastChannel('rillmark')
  readonly #open = new Map<string, Promise<LocalInvestigation | undefined>>()
  readonly #following = new Map<string, () => void>()

  constructor(parts: Omit<DeviceParts, 'tell'>) {
    this.#parts = { ...parts, tell: (investigation) => this.#tell(investigation) }
    this.#channel.addEventListener('message', ({ data }: MessageEvent<Told>) => {
      if (typeof data === 'string') void this.#open.get(data)?.then((local) => local?.hear())
      else this.#close(data.letGo)
    })
  }

  /** Undefined when neither this device nor the server knows it. */
  read(id: string): Promise<LocalInvestigation | undefined> {
    const known = this.#open.get(id)
    if (known !== undefined) return known
    const opening = openLocal(id, this.#parts)
    this.#open.set(id, opening)
    void opening.then(
      (local) => local ?? this.#open.delete(id),
      () => this.#open.delete(id),
    )
    return opening
  }

  /** For a screen: hears of what others write as it happens. A browser has few connections, so that lists do not do this. */
  async follow(id: string): Promise<LocalInvestigation | undefined> {
    const local = await this.read(id)
    if (local !== undefined && !this.#following.has(id)) this.#following.set(id, local.follow())
    return local
  }

  /** A new one, kept open when `begin` says that it was begun. */
  async begin(id: string, begin: (local: LocalInvestigation) => Promise<boolean>): Promise<void> {
    const local = new LocalInvestigation(id, this.#parts)
    this.#open.set(id, Promise.resolve(local))
    if (await begin(local)) this.#following.set(id, local.follow())
    else this.#open.delete(id)
  }

  /** Its copy was taken off this device: no tab goes on with it. */
  letGo(id: string): void {
    this.#close(id)
    this.#tell({ letGo: id })
  }

  #tell(told: Told): void {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a broadcast channel stays within its origin
    this.#channel.postMessage(told)
  }

  #close(id: string): void {
    this.#following.get(id)?.()
    this.#following.delete(id)
    void this.#open.get(id)?.then((local) => local?.loop.stop())
    this.#open.delete(id)
    forgetPlace(id)
  }
}

/** Opens what is kept here, or fetches it. */
async function openLocal(id: string, parts: DeviceParts): Promise<LocalInvestigation | undefined> {
  const local = new LocalInvestigation(id, parts)
  await local.refresh()
  if (local.empty) await local.loop.nudge()
  if (local.empty) {
    local.loop.stop()
    return undefined
  }
  return local
}
