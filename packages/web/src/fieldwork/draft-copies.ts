import {
  changedDraft,
  type Draft,
  draftFrom,
  type DraftPlace,
  type KeptDraft,
  readDraft,
  writeDraft,
} from './drafts.ts'

export interface DraftCopiesParts {
  readonly name: string
  /** where a reload finds it at once; what was written last may not be on the disk yet when the browser is killed */
  readonly place: DraftPlace
  /** the copy in the device's database, whole after a kill */
  readonly lasting: {
    readonly read: () => Promise<string | undefined>
    readonly keep: (text: string) => Promise<void>
  }
  readonly now: () => number
}

/** What has changed before the lasting copy was read. */
interface Since {
  readonly fields: Draft
  readonly cleared: boolean
}

/**
 * The two copies of one draft. Either may be the older one, so until both were read nothing goes into the database: what changes meanwhile goes
 * over the newer of the two.
 */
export class DraftCopies {
  readonly #parts: DraftCopiesParts
  readonly #first: KeptDraft
  #present: KeptDraft
  /** 'none' until something changes; undefined once both copies were read */
  #since: Since | 'none' | undefined = 'none'
  #reading: Promise<boolean> | undefined

  constructor(parts: DraftCopiesParts) {
    this.#parts = parts
    this.#first = readDraft(parts.place, parts.name)
    this.#present = this.#first
  }

  get present(): KeptDraft {
    return this.#present
  }

  /** Reads the lasting copy, once; the newer of the two is there afterwards. False where what changed meanwhile could be kept nowhere. */
  read(): Promise<boolean> {
    this.#reading ??= this.#takeUp()
    return this.#reading
  }

  /** Changes fields, at once for whoever looks; the promise is false where it could be kept nowhere on this device. */
  set(fields: Draft): Promise<boolean> {
    const before = this.#since === 'none' ? undefined : this.#since
    if (this.#since !== undefined)
      this.#since = { fields: { ...before?.fields, ...fields }, cleared: before?.cleared ?? false }
    return this.#write(changedDraft(this.#present, { fields, now: this.#parts.now() }))
  }

  /** Nothing of it is left. */
  clear(): Promise<boolean> {
    if (this.#since !== undefined) this.#since = { fields: {}, cleared: true }
    return this.#write(changedDraft({ at: this.#present.at, fields: {} }, { fields: {}, now: this.#parts.now() }))
  }

  async #takeUp(): Promise<boolean> {
    const found = draftFrom(await this.#parts.lasting.read().catch(() => undefined))
    const newer = found.at > this.#first.at ? found : this.#first
    const since = this.#since
    this.#since = undefined
    if (since === 'none' || since === undefined) {
      this.#present = newer
      return true
    }
    const under = { at: Math.max(newer.at, this.#present.at), fields: since.cleared ? {} : newer.fields }
    return this.#write(changedDraft(under, { fields: since.fields, now: this.#parts.now() }))
  }

  async #write(draft: KeptDraft): Promise<boolean> {
    const { place, name, lasting } = this.#parts
    this.#present = draft
    const atOnce = writeDraft(place, { name, draft })
    // reading tells
    if (this.#since !== undefined) return true
    return lasting.keep(JSON.stringify(draft)).then(
      () => true,
      () => atOnce,
    )
  }
}
