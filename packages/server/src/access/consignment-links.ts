import type { DatabaseSync } from 'node:sqlite'
import { isSecret, mintToken, readToken } from './tokens.ts'

/** A way in for one laboratory to one consignment. */
export interface ConsignmentLink {
  readonly number: number
  readonly investigation: string
  readonly consignment: string
  readonly made: number
  readonly madeBy: string
  readonly expires: number
  /** id of the entry the laboratory wrote through it */
  readonly received: string | undefined
  readonly revoked: number | undefined
}

/** Consignment links: each opens one consignment, takes one receipt, expires and can be revoked. Only hashes are kept. */
export class ConsignmentLinks {
  readonly #statements: ReturnType<typeof prepare>
  readonly #now: () => number

  constructor(database: DatabaseSync, now: () => number) {
    this.#statements = prepare(database)
    this.#now = now
  }

  make(asked: {
    investigation: string
    consignment: string
    days: number
    by: string
    /** numbers up to here are taken by devices of the record */
    above: number
  }): {
    token: string
    link: ConsignmentLink
  } {
    const { token, id, hash } = mintToken()
    const made = this.#now()
    const expires = made + asked.days * 86_400_000
    const { investigation, consignment, by, above } = asked
    this.#statements.insert.run(above, id, hash, investigation, consignment, made, by, expires)
    return { token, link: linkOf(this.#statements.find.get(id) ?? {}) }
  }

  /** The link behind a token that has neither expired nor been revoked; one that took its receipt still shows it. */
  open(token: string): ConsignmentLink | undefined {
    const parts = readToken(token)
    const row = parts === undefined ? undefined : this.#statements.find.get(parts.id)
    if (parts === undefined || row === undefined || !isSecret(parts.secret, String(row['hash']))) return undefined
    const link = linkOf(row)
    return link.revoked !== undefined || link.expires <= this.#now() ? undefined : link
  }

  of(investigation: string): ConsignmentLink[] {
    return this.#statements.list.all(investigation).map(linkOf)
  }

  setReceived(number: number, entry: string): void {
    this.#statements.receive.run(entry, number)
  }

  /** False when the investigation has no such link or it was revoked before. */
  revoke(number: number, investigation: string): boolean {
    return this.#statements.revoke.run(this.#now(), number, investigation).changes === 1
  }
}

function linkOf(row: Readonly<Record<string, unknown>>): ConsignmentLink {
  const { number, investigation, consignment, made, made_by: madeBy, expires, received, revoked } = row
  return {
    number: Number(number),
    investigation: String(investigation),
    consignment: String(consignment),
    made: Number(made),
    madeBy: String(madeBy),
    expires: Number(expires),
    received: received === null ? undefined : String(received),
    revoked: revoked === null ? undefined : Number(revoked),
  }
}

function prepare(database: DatabaseSync) {
  return {
    insert: database.prepare(
      'INSERT INTO links (number, id, hash, investigation, consignment, made, made_by, expires) SELECT max(?, coalesce(max(number), 0)) + 1, ?, ?, ?, ?, ?, ?, ? FROM links',
    ),
    find: database.prepare('SELECT * FROM links WHERE id = ?'),
    list: database.prepare('SELECT * FROM links WHERE investigation = ? ORDER BY number'),
    receive: database.prepare('UPDATE links SET received = ? WHERE number = ? AND received IS NULL'),
    revoke: database.prepare('UPDATE links SET revoked = ? WHERE number = ? AND investigation = ? AND revoked IS NULL'),
  }
}
