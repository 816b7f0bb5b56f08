import { ATTACHMENT_LIMIT_BYTES, mediaTypeOf } from '@rillmark/exchange/package/media-type.ts'
import type { Room } from '../folder/room.ts'
import { Queues } from '../folder/queues.ts'
import type { Attachments } from './attachments.ts'
import { Unfinished } from './unfinished.ts'

export interface Piece {
  /** of the whole picture */
  readonly sha256: string
  /** how many bytes of the picture come before this piece */
  readonly from: number
  /** how many bytes the picture has */
  readonly of: number
  readonly bytes: Uint8Array
}

/** How much of a picture is here: where its next piece starts. `whole`: all of it, and its hash is right. */
export interface Received {
  readonly received: number
  readonly whole: boolean
}

/** What became of a piece. */
export type PieceOutcome =
  | ({ readonly kind: 'kept' | 'out of place' } & Received)
  | { readonly kind: 'too long' | 'no picture' | 'other bytes' | 'disk nearly full' | 'too many unfinished' }

export interface PiecesOptions {
  readonly attachments: Attachments
  /** where unfinished pictures lie */
  readonly folder: string
  /** milliseconds since 1970 */
  readonly now: () => number
  readonly room: Room
}

export const PIECE_LIMIT_BYTES = 256 * 1024
/** Whoever still has a picture that nobody added to for so long sends it again from its start. */
export const UNFINISHED_DAYS = 14
/** Room for two hundred devices in the middle of their largest picture. */
export const UNFINISHED_LIMIT_BYTES = 200 * ATTACHMENT_LIMIT_BYTES
const MOST_KNOWN = 1000
const DAY_MS = 86_400_000
const SWEEP_EVERY_MS = 3_600_000

/**
 * Pictures that come in pieces. A piece counts when it starts where the one before it ended; so an upload goes on where it stopped, after
 * any cut and any kill on either side, and devices that send the same picture at once help each other. The whole is believed when its hash is right.
 */
export class Pieces {
  readonly #attachments: Attachments
  readonly #unfinished: Unfinished
  readonly #now: () => number
  readonly #room: Room
  readonly #queues = new Queues()
  /** of pictures under way; lost at every restart */
  readonly #known = new Map<string, Received>()
  #swept = Number.NEGATIVE_INFINITY

  constructor({ attachments, folder, now, room }: PiecesOptions) {
    this.#attachments = attachments
    this.#unfinished = new Unfinished(folder)
    this.#now = now
    this.#room = room
  }

  received(sha256: string): Promise<Received> {
    return this.#queues.run(sha256, () => this.#here(sha256))
  }

  put(piece: Piece): Promise<PieceOutcome> {
    return this.#queues.run(piece.sha256, () => this.#put(piece))
  }

  async #put(piece: Piece): Promise<PieceOutcome> {
    const { sha256, from, of, bytes } = piece
    const here = await this.#here(sha256)
    if (here.whole) return { kind: 'kept', ...here }
    const { received } = here
    // all pieces came, and the server was killed before it looked at the whole
    if (received === of) return this.#finish(sha256, received)
    if (received > of) await this.#forget(sha256, received)
    if (from !== received) return { kind: 'out of place', received: received > of ? 0 : received, whole: false }
    const trouble = shapeTrouble(piece) ?? (await this.#roomTrouble(piece))
    if (trouble !== undefined) return { kind: trouble }
    await this.#unfinished.add(sha256, { from, bytes })
    const now = received + bytes.length
    this.#note(sha256, { received: now, whole: false })
    return now < of ? { kind: 'kept', received: now, whole: false } : this.#finish(sha256, now)
  }

  async #finish(sha256: string, received: number): Promise<PieceOutcome> {
    const adopted = await this.#attachments.adopt(sha256, this.#unfinished.path(sha256))
    await this.#forget(sha256, received)
    return adopted ? { kind: 'kept', received, whole: true } : { kind: 'other bytes' }
  }

  async #forget(sha256: string, received: number): Promise<void> {
    this.#known.delete(sha256)
    await this.#unfinished.end(sha256, { bytes: received })
  }

  /** From memory while pieces follow each other; else from the disk. */
  async #here(sha256: string): Promise<Received> {
    const known = this.#known.get(sha256)
    if (known !== undefined) return known
    const size = await this.#attachments.size(sha256)
    if (size !== undefined) return { received: size, whole: true }
    return { received: await this.#unfinished.received(sha256), whole: false }
  }

  #note(sha256: string, here: Received): void {
    this.#known.set(sha256, here)
    const [oldest] = this.#known.keys()
    if (this.#known.size > MOST_KNOWN && oldest !== undefined) this.#known.delete(oldest)
  }

  async #roomTrouble({ bytes }: Piece): Promise<'disk nearly full' | 'too many unfinished' | undefined> {
    await this.#sweep()
    if (this.#unfinished.bytes + bytes.length > UNFINISHED_LIMIT_BYTES) return 'too many unfinished'
    return (await this.#room.takes(bytes.length)) ? undefined : 'disk nearly full'
  }

  /** At the first piece after a start, and hourly. */
  async #sweep(): Promise<void> {
    const now = this.#now()
    if (now - this.#swept < SWEEP_EVERY_MS) return
    this.#swept = now
    this.#known.clear()
    await this.#unfinished.sweep(now - UNFINISHED_DAYS * DAY_MS)
    await this.#attachments.sweep(now - DAY_MS)
  }
}

function shapeTrouble({ from, of, bytes }: Piece): 'too long' | 'no picture' | undefined {
  if (from + bytes.length > of || of > ATTACHMENT_LIMIT_BYTES) return 'too long'
  return from === 0 && mediaTypeOf(bytes) === undefined ? 'no picture' : undefined
}
