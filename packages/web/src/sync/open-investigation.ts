import { byRightClock } from '@rillmark/casebook/chain/clock.ts'
import { signedText } from '@rillmark/casebook/devices/signed-text.ts'
import type { Proposal } from '@rillmark/casebook/entry/draft.ts'
import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { Pending } from '@rillmark/casebook/ledger/ledger.ts'
import type { DeviceDatabase } from '../ledger/database.ts'
import { IdbLedger } from '../ledger/idb-ledger.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import { keepStill } from '../ledger/idb-stills.ts'
import { Readings } from '../ledger/readings.ts'
import { takeEarly } from '../opening/early-links.ts'
import { type DrawnFrom, type DrawnStill, sameDrawnFrom } from '../opening/still.ts'
import { withReserve } from '../offline/reserve.ts'
import type { SecondCopy } from '../offline/second-copy.ts'
import { lookAtRoomAgain } from '../offline/storage.ts'
import { InvestigationStore } from '../store/investigation-store.ts'
import type { InvestigationPorts, SyncState } from '../store/ports.ts'
import type { PhotoSender } from './photo-sender.ts'
import { clockWords } from '../store/clock-words.ts'
import { clockAhead } from '../store/right-clock.ts'
import type { DeviceKey } from './device-key.ts'
import type { AsWhom } from './enrolled.ts'
import { joiningOf, joinWhatWaits } from './joining.ts'
import { at, httpServer, type ServerPort } from './server-port.ts'
import { sessionStanding } from './session.ts'
import type { SignatureWatch, Unsound } from './signature-watch.ts'
import { exchange, type Exchange } from './sync-engine.ts'
import { SyncLoop } from './sync-loop.ts'
import { type Standing, syncWords } from './sync-words.ts'
import { onNewHead } from './head-events.ts'

/** What an investigation on this device needs from around it. */
export interface DeviceParts {
  readonly database: DeviceDatabase
  readonly device: string
  readonly now: InvestigationPorts['now']
  readonly newId: () => string
  /** what this device signs with, and as whom it writes, as far as it knows; absent or undefined where it has no key */
  readonly signer?: () => Promise<Signer | undefined>
  /** asks the server as whom this device writes; undefined where it does not say */
  readonly learnAsWhom?: () => Promise<AsWhom | undefined>
  /** seconds this device's clock is ahead, as last measured; 0 where it is right */
  readonly clockAheadS?: () => number
  readonly server?: ServerPort
  /** one holder of a name at a time, over all tabs of this browser */
  readonly alone: <T>(name: string, work: () => Promise<T>) => Promise<T>
  /** sends the photos of this device beside the entries */
  readonly photos?: PhotoSender
  /** of what waits, against the loss of the database */
  readonly second?: SecondCopy
  /** checks the signatures of what was pulled, in its own time */
  readonly signatures?: Pick<SignatureWatch, 'known' | 'check'>
  /** after an exchange that went through */
  readonly exchanged?: (investigation: string) => Promise<void>
  /** tells the other tabs that something of an investigation was kept */
  readonly tell: (investigation: string) => void
}

interface Waiting {
  readonly id: string
  readonly refused: boolean
}

interface Signer {
  readonly key: DeviceKey
  readonly as: AsWhom | undefined
}

/**
 * One investigation of this device, held by its store and kept in step with the outbox, the ledger, the other tabs and the server.
 * What is derived is derived from the links in their order and then the entries still on their way.
 */
export class LocalInvestigation {
  readonly store: InvestigationStore
  readonly loop: SyncLoop
  readonly #parts: DeviceParts
  readonly #ledger: IdbLedger
  readonly #outbox: IdbOutbox
  readonly #readings: Readings
  readonly #confirmed: Entry[] = []
  /** ids of all that is in the record here, also of what it carries as second accounts */
  readonly #arrived = new Set<string>()
  #pending: readonly Pending[] = []
  /** all that waits here, in the order of the outbox, as last read or written */
  #waiting: readonly Waiting[] = []
  #unsound: Unsound | undefined
  #checking: Promise<void> | undefined
  #connection: Standing['connection'] = 'unknown'
  #turn: Promise<unknown> = Promise.resolve()

  constructor(id: string, parts: DeviceParts) {
    this.#parts = parts
    this.#ledger = new IdbLedger(parts.database)
    this.#outbox = new IdbOutbox(parts.database, parts.device)
    this.#readings = new Readings({ database: parts.database, investigation: id })
    this.store = new InvestigationStore({
      id,
      entries: [],
      ports: this.#ports(id),
      sync: { words: syncWords(this.#standing()), pending: 0, refused: [] },
    })
    this.loop = new SyncLoop(() => this.exchangeOnce())
  }

  get empty(): boolean {
    return this.#confirmed.length + this.#pending.length === 0
  }

  /** Takes up what this browser keeps that the store does not show yet: written here, in another tab, or pulled. */
  refresh(): Promise<void> {
    return this.#inTurn(() => this.#takeUp())
  }

  /** What waits is read first: an entry that is confirmed meanwhile is then found twice, where it would otherwise be found nowhere. */
  async #takeUp(): Promise<void> {
    const { id } = this.store
    const waiting = await this.#outbox.pending(id)
    const links = await this.#linksAfter(this.#confirmed.length)
    this.#confirmed.push(...(await this.#readings.next(links)))
    for (const { entry } of links) for (const known of idsIn(entry)) this.#arrived.add(known)
    this.#waiting = waiting.map(({ entry, refused }) => ({ id: entry.id, refused: refused !== undefined }))
    this.#pending = waiting.filter(({ entry }) => !this.#arrived.has(entry.id))
    this.#show()
  }

  /** Those read while the app was starting, and all that came since. */
  async #linksAfter(after: number): Promise<readonly Link[]> {
    const { id } = this.store
    const early = after === 0 ? ((await takeEarly(id)) ?? []) : []
    const later = await this.#ledger.read(id, { after: after + early.length, limit: Number.MAX_SAFE_INTEGER })
    return [...early, ...later]
  }

  /** Takes up what another tab has kept or found. */
  async hear(): Promise<void> {
    await this.refresh()
    await this.#recallUnsound()
  }

  /** A person has dealt with a refused entry: it leaves this device's list. */
  async settle(entry: string): Promise<void> {
    await this.#release([entry])
    await this.#dropArrived()
    await this.refresh()
    this.#parts.tell(this.store.id)
  }

  async #release(ids: readonly string[]): Promise<void> {
    await this.#outbox.release(ids)
    await this.#parts.second?.dropEntries(this.store.id, ids)
  }

  /** Keeps what a screen showed of one version of the store, if that is what this device still has; not again where it was already kept. */
  async keepStill({ still, version, keptOf }: DrawnStill): Promise<DrawnFrom | undefined> {
    if (this.store.snapshot().version !== version) return undefined
    const drawnFrom = {
      links: this.#confirmed.length,
      waiting: this.#waiting.map(({ id }) => id),
      refused: this.#waiting.flatMap(({ id, refused }) => (refused ? [id] : [])),
    }
    if (keptOf !== undefined && sameDrawnFrom(keptOf, drawnFrom)) return undefined
    const kept = await keepStill(this.#parts.database, { investigation: this.store.id, still, drawnFrom })
    return kept ? drawnFrom : undefined
  }

  /** Follows the server while the page lasts. Returns how to stop. */
  follow(): () => void {
    const restart = (): void => void this.loop.restart()
    void this.#recallUnsound()
    const stopEvents = onNewHead(`${at(this.store.id)}/events`, { nudge: () => this.loop.nudge() })
    const stopClock = clockAhead.subscribe(() => void this.refresh())
    const stopPhotos = this.#parts.photos?.follow(() => this.#tellStanding())
    globalThis.addEventListener?.('online', restart)
    void this.loop.nudge()
    return () => {
      stopEvents()
      stopClock()
      stopPhotos?.()
      globalThis.removeEventListener?.('online', restart)
      this.loop.stop()
    }
  }

  /** Taking up and proposing one after the other: neither may see the other half done. */
  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.#turn.then(work)
    this.#turn = turn.catch(() => undefined)
    return turn
  }

  #ports(id: string): InvestigationPorts {
    const { device, now, newId, alone, tell } = this.#parts
    const keepAll = async (entries: readonly Entry[], instead: readonly string[] = []): Promise<void> => {
      await withReserve(() => this.#outbox.holdAll(entries, { instead }), lookAtRoomAgain)
      await this.#parts.second?.keep(entries)
      await this.#parts.second?.dropEntries(id, instead)
      const left = this.#pending.filter(({ entry }) => !instead.includes(entry.id))
      this.#pending = [...left, ...entries.map((entry) => ({ entry }))]
      const stay = this.#waiting.filter((one) => !instead.includes(one.id))
      this.#waiting = [...stay, ...entries.map((entry) => ({ id: entry.id, refused: false }))]
      this.#tellStanding()
      tell(id)
      void this.loop.nudge()
      void this.#parts.photos?.nudge()
    }
    return {
      device,
      now,
      newId,
      clockAheadS: () => this.#clockAheadS,
      seen: () => this.#confirmed.length,
      joining: (author) => this.#joining(author),
      sign: (entry) => this.#signed(entry),
      keep: (entry) => keepAll([entry]),
      keepAll,
      nextDeviceSequence: () => this.#nextNumber(),
      alone: (work) =>
        alone(`rillmark-write-${id}`, () =>
          this.#inTurn(async () => {
            await this.#takeUp()
            return work()
          }),
        ),
    }
  }

  async #joining(author: string): Promise<Proposal<'device.joined'> | undefined> {
    const signer = await this.#parts.signer?.()
    return signer?.as === undefined ? undefined : joiningOf({ key: signer.key, as: signer.as }, author)
  }

  /** Before it is known as whom this device writes, the number before its first entry is left free for the one by which it joins. */
  async #nextNumber(): Promise<number> {
    const { device, signer } = this.#parts
    const next = await this.#outbox.nextDeviceSequence(this.store.id)
    const signs = await signer?.()
    if (signs === undefined || signs.as !== undefined || this.#hasJoined()) return next
    return this.#pending.some(({ entry }) => entry.device === device) ? next : next + 1
  }

  #hasJoined(): boolean {
    const { device } = this.#parts
    return this.#confirmed.some((entry) => entry.kind === 'device.joined' && entry.device === device)
  }

  /** Whether what waits may be sent: it says as whom, as the server has it. */
  async #saysAsWhom(): Promise<boolean> {
    const { device, signer, learnAsWhom, alone, now, newId } = this.#parts
    const signs = await signer?.()
    if (signs === undefined) return true
    const as = signs.as ?? (await learnAsWhom?.())
    if (as === undefined) return false
    await alone(`rillmark-write-${this.store.id}`, () =>
      this.#inTurn(async () => {
        await this.#takeUp()
        if (this.#hasJoined()) return
        const keep = async (entry: Entry): Promise<void> => {
          await withReserve(() => this.#outbox.hold(entry), lookAtRoomAgain)
          await this.#parts.second?.keep([entry])
        }
        const sign = (entry: Entry): Promise<Entry> => this.#signed(entry)
        const release = (ids: readonly string[]): Promise<void> => this.#release(ids)
        const [outbox, pending, seen] = [this.#outbox, this.#pending, this.#confirmed.length]
        await joinWhatWaits({ outbox, device, pending, key: signs.key, as, now, newId, seen, sign, keep, release })
      }),
    )
    return true
  }

  async #signed(entry: Entry): Promise<Entry> {
    const signer = await this.#parts.signer?.()
    if (signer === undefined) return entry
    const { key } = signer
    return { ...entry, signature: { key: key.thumbprint, value: await key.sign(signedText(entry)) } }
  }

  /** One exchange with the server, as the loop does it. */
  async exchangeOnce(): Promise<Exchange> {
    const { photos, server = httpServer, alone, tell } = this.#parts
    const investigation = this.store.id
    const before = this.#confirmed.length
    const onlyPull = !(await this.#saysAsWhom())
    const entries = () =>
      alone(`rillmark-sync-${investigation}`, async (): Promise<Exchange> => {
        if (await this.#wasLetGo()) return { kind: 'unreachable', reason: 'its copy was taken off this device' }
        return exchange({ investigation, ledger: this.#ledger, outbox: this.#outbox, server, onlyPull })
      })
    const outcome = await (photos === undefined ? entries() : photos.givingWay(entries))
    this.#connection = outcome.kind === 'done' ? 'up' : outcome.kind === 'parted' ? 'parted' : 'down'
    await this.refresh()
    if (this.#confirmed.length > before) tell(investigation)
    this.#checkSignatures()
    if (outcome.kind === 'done') {
      await this.#dropArrived()
      void photos?.nudge()
      void this.#parts.exchanged?.(investigation).catch(() => undefined)
    }
    return outcome
  }

  /** What is shown came from the copy here: a shorter one was taken off this device meanwhile, and must not be fetched again. */
  async #wasLetGo(): Promise<boolean> {
    return (await this.#ledger.head(this.store.id)).sequence < this.#confirmed.length
  }

  async #dropArrived(): Promise<void> {
    const { id } = this.store
    await this.#parts.second?.dropUnlessWaiting(id, async () => (await this.#outbox.pending(id)).length > 0)
  }

  /** What was found before this page was loaded is said at once, without a network too. */
  async #recallUnsound(): Promise<void> {
    this.#unsound ??= await this.#parts.signatures?.known(this.store.id).catch(() => undefined)
    this.#tellStanding()
  }

  /** One at a time over all tabs; nobody waits for it, and where it fails the next exchange tries again. */
  #checkSignatures(): void {
    const { signatures, alone } = this.#parts
    if (signatures === undefined || this.#checking !== undefined) return
    const { id } = this.store
    this.#checking = alone(`rillmark-signatures-${id}`, () => signatures.check(id))
      .then((unsound) => {
        if (unsound?.sequence === this.#unsound?.sequence) return
        this.#unsound = unsound
        this.#tellStanding()
        this.#parts.tell(id)
      })
      .catch(() => undefined)
      .finally(() => {
        this.#checking = undefined
      })
  }

  /** Changes the store as little as the order allows. */
  #show(): void {
    const shown = this.store.snapshot().state.record.entries
    const ahead = this.#clockAheadS
    const waiting = this.#pending.flatMap(({ entry, refused }) =>
      refused === undefined ? [byRightClock(entry, ahead)] : [],
    )
    const wanted = [...this.#confirmed, ...waiting]
    const kept = shown.every(({ id, instant }, index) => wanted[index]?.id === id && wanted[index].instant === instant)
    if (!kept) this.store.replace(wanted)
    else if (wanted.length > shown.length) this.store.receive(wanted.slice(shown.length))
    this.#tellStanding()
  }

  #tellStanding(): void {
    const refused = this.#pending.flatMap(({ entry, refused: issues }) =>
      issues === undefined ? [] : [{ entry, issues }],
    )
    const sync: SyncState = {
      words: syncWords(this.#standing()),
      pending: this.#pending.length - refused.length,
      refused,
      ...(this.#unsound === undefined ? {} : { unsound: this.#unsound }),
      ...(this.#clockAheadS === 0 ? {} : { clock: clockWords(this.#clockAheadS) }),
    }
    this.store.setSync(sync)
  }

  get #clockAheadS(): number {
    return this.#parts.clockAheadS?.() ?? 0
  }

  #standing(): Standing {
    const refused = this.#pending.filter((each) => each.refused !== undefined).length
    const { photos } = this.#parts
    return {
      confirmed: this.#confirmed.length,
      pending: this.#pending.length - refused,
      refused,
      connection: this.#connection === 'down' && sessionStanding.get() === 'not in' ? 'not let in' : this.#connection,
      ...(photos === undefined ? {} : { photos: photos.standing }),
    }
  }
}

/** What has arrived with an entry: itself, and the second account it may carry. */
function idsIn(entry: Entry): readonly string[] {
  return entry.kind === 'entry.contested' ? [entry.id, entry.body.entry.id] : [entry.id]
}
