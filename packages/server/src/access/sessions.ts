import type { DatabaseSync } from 'node:sqlite'
import { isSecret, mintSecret, mintToken, readToken } from './tokens.ts'

/** A session ends when it was not used for so long: the key makes a new one without anybody's doing. */
export const IDLE_MS = 30 * 60_000
/** However busy, it ends then. */
export const ABSOLUTE_MS = 12 * 3_600_000
/** After so long the token is changed for a new one. */
export const ROTATE_MS = 60 * 60_000
/** Requests under way when a token changes still carry the old one. */
export const GRACE_MS = 60_000
/** Use is written down once in so long, not at every request. */
const NOTED_MS = 60_000
/** A browser needs one; a few more for what is lost on the way. */
const MOST_A_DEVICE = 4

export interface Session {
  readonly id: string
  readonly device: string
  /** ends then at the latest, milliseconds since 1970 */
  readonly ends: number
  /** the token from now on, when it was changed */
  readonly fresh: string | undefined
}

interface Row {
  readonly id: string
  readonly hash: string
  readonly previous: string | null
  readonly rotated: number
  readonly device: string
  readonly made: number
  readonly used: number
}

/** Sessions of devices. Only hashes of tokens are kept: a copy of the file lets nobody in. */
export class Sessions {
  readonly #statements: ReturnType<typeof prepare>
  readonly #now: () => number

  constructor(database: DatabaseSync, now: () => number) {
    this.#statements = prepare(database)
    this.#now = now
  }

  /** Starts a session; the oldest of the device's others give way. */
  start(device: string): string {
    const { token, id, hash } = mintToken()
    const now = this.#now()
    this.#statements.sweep.run(now - ABSOLUTE_MS, now - IDLE_MS)
    this.#statements.insert.run(id, hash, now, device, now, now)
    this.#statements.trim.run(device, device, MOST_A_DEVICE)
    return token
  }

  /** The session a token belongs to, unless it has ended. A token given up long ago is in the wrong hands: it ends the session. */
  find(token: string): Session | undefined {
    const parts = readToken(token)
    const row = parts === undefined ? undefined : (this.#statements.find.get(parts.id) as unknown as Row | undefined)
    if (parts === undefined || row === undefined) return undefined
    const now = this.#now()
    const isCurrent = isSecret(parts.secret, row.hash)
    const isPrevious = row.previous !== null && isSecret(parts.secret, row.previous)
    if (!isCurrent && !isPrevious) return undefined
    const ended = row.made + ABSOLUTE_MS <= now || row.used + IDLE_MS <= now
    if (ended || (!isCurrent && row.rotated + GRACE_MS <= now)) {
      this.end(row.id)
      return undefined
    }
    const fresh = isCurrent && row.rotated + ROTATE_MS <= now ? this.#rotate(row) : undefined
    if (row.used + NOTED_MS <= now) this.#note(row)
    return { id: row.id, device: row.device, ends: row.made + ABSOLUTE_MS, fresh }
  }

  end(id: string): void {
    this.#statements.end.run(id)
  }

  endAllOf(device: string): void {
    this.#statements.endAll.run(device)
  }

  #rotate({ id, hash }: Row): string {
    const { token, hash: next } = mintSecret(id)
    this.#statements.rotate.run(next, hash, this.#now(), id)
    return token
  }

  #note({ id, device }: Row): void {
    this.#statements.use.run(this.#now(), id)
    this.#statements.see.run(this.#now(), device)
  }
}

function prepare(database: DatabaseSync) {
  return {
    insert: database.prepare(
      'INSERT INTO sessions (id, hash, previous, rotated, device, made, used) VALUES (?, ?, NULL, ?, ?, ?, ?)',
    ),
    find: database.prepare('SELECT * FROM sessions WHERE id = ?'),
    rotate: database.prepare('UPDATE sessions SET hash = ?, previous = ?, rotated = ? WHERE id = ?'),
    use: database.prepare('UPDATE sessions SET used = ? WHERE id = ?'),
    see: database.prepare('UPDATE devices SET seen = ? WHERE id = ?'),
    end: database.prepare('DELETE FROM sessions WHERE id = ?'),
    endAll: database.prepare('DELETE FROM sessions WHERE device = ?'),
    sweep: database.prepare('DELETE FROM sessions WHERE made <= ? OR used <= ?'),
    trim: database.prepare(
      'DELETE FROM sessions WHERE device = ? AND id NOT IN (SELECT id FROM sessions WHERE device = ? ORDER BY made DESC, used DESC LIMIT ?)',
    ),
  }
}
