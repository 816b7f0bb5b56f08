import { byRightClock } from '@rillmark/casebook/chain/clock.ts'
import { asRead } from '@rillmark/casebook/chain/entries-of.ts'
import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { DeviceDatabase } from './database.ts'

/**
 * How the links of one investigation read: up to a link known by its hash, all but a few read as they were written. Kept so that they need
 * not go through the schemas at each opening; it says nothing to an app with other schemas.
 */
interface Reading {
  readonly schemas: string
  readonly sequence: number
  readonly hash: string
  readonly otherwise: readonly number[]
}

/** Where it is kept, among what this device is. */
export const readingKey = (investigation: string): string => `reading ${investigation}`

/** The schemas this app has, as the build names them; undefined in development and in tests. */
const schemasOfBuild = (): string | undefined =>
  (globalThis as { rillmarkWritten?: { readonly schemas: string } }).rillmarkWritten?.schemas

/**
 * Reads the links this device keeps of one investigation as the record reads them (`entriesOf`), in order and from the first. They were
 * checked whole before they were kept; what was found then of how they read is kept too, and each is held here only to being the one
 * that belongs in its place.
 */
export class Readings {
  readonly #database: DeviceDatabase
  readonly #investigation: string
  readonly #schemas: string | undefined
  /** of the links read so far */
  #last: Link | undefined
  #otherwise: number[] = []

  constructor(given: {
    readonly database: DeviceDatabase
    readonly investigation: string
    readonly schemas?: string | undefined
  }) {
    const { database, investigation, schemas = schemasOfBuild() } = given
    this.#database = database
    this.#investigation = investigation
    this.#schemas = schemas
  }

  /** @throws TypeError naming the entry where what is kept has a gap or is no entry of this investigation */
  async next(links: readonly Link[]): Promise<Entry[]> {
    const before = this.#last?.sequence ?? 0
    for (const [index, link] of links.entries()) this.#checkPlace(link, before + index + 1)
    const known = links.length === 0 || before > 0 ? undefined : await this.#known(links)
    const otherwise = new Set(known?.otherwise)
    const upTo = known?.sequence ?? 0
    const entries = links.map((link) => {
      const { sequence, entry, clockAheadS } = link
      if (sequence <= upTo && !otherwise.has(sequence)) return byRightClock(entry, clockAheadS)
      const read = asRead(entry)
      if (!sameText(read, entry)) this.#otherwise.push(sequence)
      return byRightClock(read, clockAheadS)
    })
    this.#last = links.at(-1) ?? this.#last
    if ((this.#last?.sequence ?? 0) > upTo && links.length > 0) this.#keep()
    return entries
  }

  #checkPlace({ sequence, entry }: Link, expected: number): void {
    const wrong =
      sequence !== expected
        ? `number ${sequence} stands in its place`
        : typeof entry?.id !== 'string' || typeof entry.kind !== 'string' || typeof entry.instant !== 'string'
          ? 'it is no entry'
          : entry.investigation !== this.#investigation
            ? `it is of ${entry.investigation}`
            : undefined
    if (wrong !== undefined)
      throw new TypeError(`Cannot read entry ${expected} as this device keeps it because ${wrong}`)
  }

  /** What is known of these links, if they are still the ones that were read and the schemas are the same. */
  async #known(links: readonly Link[]): Promise<Reading | undefined> {
    if (this.#schemas === undefined) return undefined
    const kept = await this.#database.get('device', this.#key)
    if (kept === undefined) return undefined
    const reading = JSON.parse(kept) as Reading
    const sound = reading.schemas === this.#schemas && links[reading.sequence - 1]?.hash === reading.hash
    return sound ? reading : undefined
  }

  /** Nothing is lost where it can't be kept, on a full disk for one: they are read through the schemas again. */
  #keep(): void {
    const [last, schemas] = [this.#last, this.#schemas]
    if (last === undefined || schemas === undefined) return
    const reading: Reading = { schemas, sequence: last.sequence, hash: last.hash, otherwise: this.#otherwise }
    void this.#database.put('device', JSON.stringify(reading), this.#key).catch(() => undefined)
  }

  get #key(): string {
    return readingKey(this.#investigation)
  }
}

/** To the order of the fields: a screen lists them as they come. */
const sameText = (a: Entry, b: Entry): boolean => JSON.stringify(a) === JSON.stringify(b)
