import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { Expectation, Verdict } from '@rillmark/casebook/chain/verify.ts'
import { type DeviceKey, deviceKey } from '@rillmark/casebook/devices/kinds.ts'
import * as z from 'zod'
import { type DeviceDatabase, DURABLE } from '../ledger/database.ts'
import { IdbLedger } from '../ledger/idb-ledger.ts'
import { dropStill } from '../ledger/idb-stills.ts'
import { signaturesKey } from '../ledger/unsound.ts'

/** The first entry that does not hold, and why. */
export interface Unsound {
  readonly sequence: number
  readonly reason: string
}

export type VerifyLinks = (links: readonly Link[], expected: Omit<Expectation, 'checkSignature'>) => Promise<Verdict>

/** Links looked at together: a second or so of a phone's time. */
const AT_ONCE = 500

const progressSchema = z.object({
  sequence: z.int(),
  hash: z.string(),
  keys: z.array(z.tuple([z.string(), deviceKey])),
  revoked: z.array(z.string()),
  /** when the last link was received, and the highest number of each device; not kept by versions that did not hold what follows against them */
  received: z.string().optional(),
  numbers: z.array(z.tuple([z.string(), z.int()])).optional(),
  unsound: z.object({ sequence: z.int(), reason: z.string(), hash: z.string() }).optional(),
})
type Progress = z.infer<typeof progressSchema>

/**
 * Checks the signatures of what was pulled, after it was taken up, so that nobody waits for it: each link once, however often the page is
 * loaded. How far it came is kept beside the links. Says the first entry that does not hold, for good, for it stays in the record.
 */
export class SignatureWatch {
  readonly #database: DeviceDatabase
  readonly #verify: VerifyLinks
  readonly #ledger: IdbLedger

  constructor({ database, verify }: { database: DeviceDatabase; verify: VerifyLinks }) {
    this.#database = database
    this.#verify = verify
    this.#ledger = new IdbLedger(database)
  }

  /** What was found so far, without looking on. */
  async known(investigation: string): Promise<Unsound | undefined> {
    return (await this.#progress(investigation))?.unsound
  }

  /** Looks on to the end of what is held. */
  async check(investigation: string): Promise<Unsound | undefined> {
    let progress = (await this.#progress(investigation)) ?? START
    while (progress.unsound === undefined) {
      const links = await this.#ledger.read(investigation, { after: progress.sequence, limit: AT_ONCE })
      if (links.length === 0) return undefined
      progress = await this.#next(progress, { investigation, links })
      await this.#keep(investigation, progress)
    }
    return progress.unsound
  }

  async #next(
    { sequence, hash, keys, revoked, received = '', numbers = [] }: Progress,
    { investigation, links }: { investigation: string; links: readonly Link[] },
  ): Promise<Progress> {
    const after = sequence === 0 ? undefined : { sequence, hash }
    const verdict = await this.#verify(links, {
      investigation,
      after,
      keys: new Map<string, DeviceKey>(keys),
      revoked: new Set(revoked),
      // no id is there twice: the copy here takes none a second time
      forerunners: { received, deviceSequences: new Map(numbers) },
    })
    if (!verdict.sound) {
      const found = links[verdict.sequence - sequence - 1]
      const unsound = { sequence: verdict.sequence, reason: verdict.reason, hash: found?.hash ?? '' }
      return { sequence, hash, keys, revoked, received, numbers, unsound }
    }
    return {
      ...verdict.head,
      keys: [...keys, ...keysIn(links)],
      revoked: [...revoked, ...revokedIn(links)],
      received: links.at(-1)?.received ?? received,
      numbers: [...new Map([...numbers, ...numbersIn(links)])],
    }
  }

  /** Undefined where there is none, where it is of a version that checked less, or where it is of a copy that was let go and fetched anew. */
  async #progress(investigation: string): Promise<Progress | undefined> {
    const kept = await this.#database.get('device', signaturesKey(investigation))
    const progress = kept === undefined ? undefined : progressSchema.safeParse(JSON.parse(kept)).data
    if (progress === undefined) return undefined
    const { unsound, ...sound } = progress
    if (sound.sequence > 0 && !(await this.#holds(investigation, sound))) return undefined
    if (unsound !== undefined && (await this.#holds(investigation, unsound))) return progress
    return progress.received === undefined || progress.numbers === undefined ? undefined : sound
  }

  async #holds(investigation: string, { sequence, hash }: { sequence: number; hash: string }): Promise<boolean> {
    const [link] = await this.#ledger.read(investigation, { after: sequence - 1, limit: 1 })
    return link?.hash === hash
  }

  async #keep(investigation: string, progress: Progress): Promise<void> {
    const transaction = this.#database.transaction('device', 'readwrite', DURABLE)
    const { store } = transaction
    // a still says nothing of what does not hold
    if (progress.unsound !== undefined) await dropStill(store, investigation)
    await Promise.all([store.put(JSON.stringify(progress), signaturesKey(investigation)), transaction.done])
  }
}

const START: Progress = { sequence: 0, hash: '', keys: [], revoked: [] }

function keysIn(links: readonly Link[]): [string, DeviceKey][] {
  return links.flatMap(({ entry }) => (entry.kind === 'device.joined' ? [[entry.device, entry.body.key]] : []))
}

function numbersIn(links: readonly Link[]): [string, number][] {
  return links.map(({ entry }) => [entry.device, entry.deviceSequence])
}

function revokedIn(links: readonly Link[]): string[] {
  return links.flatMap(({ entry }) => (entry.kind === 'device.revoked' ? [entry.body.device] : []))
}
