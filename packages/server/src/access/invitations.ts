import type { DatabaseSync } from 'node:sqlite'
import type { Role } from './roles.ts'
import { isSecret, mintToken, readToken } from './tokens.ts'

export interface Invitation {
  readonly id: string
  readonly role: Role
  /** proposed for the device; it may call itself otherwise */
  readonly name: string | undefined
  readonly madeBy: string
}

/** Who invites from the terminal the server was started at. */
export const TERMINAL = 'terminal'

/** Invitations: each lets one device in, once, until it expires. Only hashes are kept. */
export class Invitations {
  readonly #statements: ReturnType<typeof prepare>
  readonly #now: () => number

  constructor(database: DatabaseSync, now: () => number) {
    this.#statements = prepare(database)
    this.#now = now
  }

  make(asked: { role: Role; name?: string | undefined; minutes: number; by: string }): {
    token: string
    expires: number
  } {
    const { token, id, hash } = mintToken()
    const expires = this.#now() + asked.minutes * 60_000
    this.#statements.sweep.run(this.#now())
    if (asked.by === TERMINAL) this.#statements.replace.run(TERMINAL)
    this.#statements.insert.run(id, hash, asked.role, asked.name ?? null, asked.by, expires)
    return { token, expires }
  }

  /** The invitation behind a token that still lets somebody in. */
  open(token: string): Invitation | undefined {
    const parts = readToken(token)
    const row = parts === undefined ? undefined : this.#statements.find.get(parts.id)
    if (parts === undefined || row === undefined || !isSecret(parts.secret, String(row['hash']))) return undefined
    if (row['used_by'] !== null || Number(row['expires']) <= this.#now()) return undefined
    const { id, role, name, made_by: madeBy } = row
    return {
      id: String(id),
      role: role as Role,
      name: name === null ? undefined : String(name),
      madeBy: String(madeBy),
    }
  }

  /** False when somebody else was quicker. */
  use(id: string, device: string): boolean {
    return this.#statements.use.run(device, id).changes === 1
  }
}

function prepare(database: DatabaseSync) {
  return {
    insert: database.prepare(
      'INSERT INTO invitations (id, hash, role, name, made_by, expires) VALUES (?, ?, ?, ?, ?, ?)',
    ),
    find: database.prepare('SELECT * FROM invitations WHERE id = ?'),
    use: database.prepare('UPDATE invitations SET used_by = ? WHERE id = ? AND used_by IS NULL'),
    sweep: database.prepare('DELETE FROM invitations WHERE used_by IS NULL AND expires <= ?'),
    replace: database.prepare('DELETE FROM invitations WHERE used_by IS NULL AND made_by = ?'),
  }
}
