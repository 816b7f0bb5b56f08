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

interface Maker {
  readonly id: string
  readonly name: string
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
    /** what the maker calls itself */
    by: string
    /** the device it is made on; undefined for the server's own machine */
    maker?: string | undefined
    /** numbers up to here are taken by devices of the record */
    above: number
  }): {
    token: string
    link: ConsignmentLink
  } {
    const { token, id, hash } = mintToken()
    const made = this.#now()
    const expires = made + asked.days * 86_400_000
    const { investigation, consignment, by, maker, above } = asked
    this.#statements.insert.run(above, id, hash, investigation, consignment, made, by, maker ?? null, expires)
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

  /** How many links a device made that still take a receipt. One of an older version is known by the name of its maker alone. */
  openOf({ id, name }: Maker): number {
    return Number(this.#statements.openOf.get(id, name, this.#now())?.['count'])
  }

  /** Ends those. How many. */
  endThoseOf({ id, name }: Maker): number {
    return Number(this.#statements.endThose.run(this.#now(), id, name, this.#now()).changes)
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

const OPEN_OF =
  '(maker = ? OR (maker IS NULL AND made_by = ?)) AND received IS NULL AND revoked IS NULL AND expires > ?'

function prepare(database: DatabaseSync) {
  return {
    insert: database.prepare(
      'INSERT INTO links (number, id, hash, investigation, consignment, made, made_by, maker, expires) SELECT max(?, coalesce(max(number), 0)) + 1, ?, ?, ?, ?, ?, ?, ?, ? FROM links',
    ),
    find: database.prepare('SELECT * FROM links WHERE id = ?'),
    list: database.prepare('SELECT * FROM links WHERE investigation = ? ORDER BY number'),
    openOf: database.prepare(`SELECT count(*) AS count FROM links WHERE ${OPEN_OF}`),
    endThose: database.prepare(`UPDATE links SET revoked = ? WHERE ${OPEN_OF}`),
    receive: database.prepare('UPDATE links SET received = ? WHERE number = ? AND received IS NULL'),
    revoke: database.prepare('UPDATE links SET revoked = ? WHERE number = ? AND investigation = ? AND revoked IS NULL'),
  }
}
