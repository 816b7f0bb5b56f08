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

export interface InvitationAsked {
  readonly role: Role
  readonly name?: string | undefined
  readonly minutes: number
  /** what the maker calls itself */
  readonly by: string
  /** the device it is made on; undefined for the server's own machine */
  readonly maker?: string | undefined
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

  make({ role, name, minutes, by, maker }: InvitationAsked): { id: string; token: string; expires: number } {
    const { token, id, hash } = mintToken()
    const expires = this.#now() + minutes * 60_000
    this.#statements.sweep.run(this.#now())
    if (maker === undefined && by === TERMINAL) this.#statements.replace.run(TERMINAL)
    this.#statements.insert.run(id, hash, role, name ?? null, by, maker ?? null, expires)
    return { id, token, expires }
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

  /** What a device made lets nobody in any more. One of an older version is known by the name of its maker alone. */
  voidThoseOf({ id, name }: { readonly id: string; readonly name: string }): void {
    this.#statements.voidThose.run(id, name)
  }
}

function prepare(database: DatabaseSync) {
  return {
    insert: database.prepare(
      'INSERT INTO invitations (id, hash, role, name, made_by, maker, expires) VALUES (?, ?, ?, ?, ?, ?, ?)',
    ),
    find: database.prepare('SELECT * FROM invitations WHERE id = ?'),
    use: database.prepare('UPDATE invitations SET used_by = ? WHERE id = ? AND used_by IS NULL'),
    sweep: database.prepare('DELETE FROM invitations WHERE used_by IS NULL AND expires <= ?'),
    replace: database.prepare('DELETE FROM invitations WHERE used_by IS NULL AND maker IS NULL AND made_by = ?'),
    voidThose: database.prepare(
      'DELETE FROM invitations WHERE used_by IS NULL AND (maker = ? OR (maker IS NULL AND made_by = ?))',
    ),
  }
}
