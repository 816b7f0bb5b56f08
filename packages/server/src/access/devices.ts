import type { DatabaseSync } from 'node:sqlite'
import type { DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import { thumbprint as thumbprintOf } from '@rillmark/casebook/devices/signed-text.ts'
import type { Role } from './roles.ts'

/** A device that was let in. */
export interface EnrolledDevice {
  readonly id: string
  readonly name: string
  readonly role: Role
  readonly key: DeviceKey
  readonly thumbprint: string
  /** milliseconds since 1970, as all times here */
  readonly enrolled: number
  readonly seen: number
  readonly revoked: Revoked | undefined
  /** the invitation it came in by */
  readonly invitation: string | undefined
}

export interface Revoked {
  readonly at: number
  readonly reason: string
  /** what whoever did it calls itself */
  readonly by: string
  /** the device it was done on; undefined for the server's own machine, and for what an older version noted */
  readonly device: string | undefined
}

export interface Enrolment {
  readonly id: string
  readonly name: string
  readonly role: Role
  readonly key: DeviceKey
  readonly invitedBy: string
}

/** The register of devices. A revoked device stays in it, so that neither its name nor its key comes in again. */
export class Devices {
  readonly #statements: ReturnType<typeof prepare>
  readonly #now: () => number

  constructor(database: DatabaseSync, now: () => number) {
    this.#statements = prepare(database)
    this.#now = now
  }

  /** False when the name or the key is in the register already. */
  enrol({ id, name, role, key, invitedBy }: Enrolment): boolean {
    const thumbprint = thumbprintOf(key)
    if (this.#statements.taken.get(id, thumbprint) !== undefined) return false
    const now = this.#now()
    this.#statements.insert.run(id, name, role, JSON.stringify(key), thumbprint, now, invitedBy, now)
    return true
  }

  find(id: string): EnrolledDevice | undefined {
    const row = this.#statements.find.get(id)
    return row === undefined ? undefined : deviceOf(row)
  }

  list(): EnrolledDevice[] {
    return this.#statements.list.all().map(deviceOf)
  }

  /** Whether anybody can invite. */
  hasLead(): boolean {
    return this.#statements.lead.get() !== undefined
  }

  /** False when there is no such device or it was revoked before. */
  revoke(id: string, { reason, by, device }: { reason: string; by: string; device?: string | undefined }): boolean {
    return this.#statements.revoke.run(this.#now(), reason, by, device ?? null, id).changes === 1
  }

  /** Revoked devices whose revocation has not been written into the records yet. */
  unrecorded(): EnrolledDevice[] {
    return this.#statements.unrecorded.all().map(deviceOf)
  }

  isRecorded(id: string): boolean {
    return this.unrecorded().every((each) => each.id !== id)
  }

  setRecorded(id: string, isRecorded: boolean): void {
    this.#statements.recorded.run(isRecorded ? 1 : 0, id)
  }
}

type Row = Readonly<Record<string, unknown>>

function deviceOf(row: Row): EnrolledDevice {
  const { id, name, role, key, thumbprint, enrolled, seen, revoked, reason, revoked_by: by } = row
  const [device, invitation] = [row['revoked_by_device'], row['invitation']]
  return {
    id: String(id),
    name: String(name),
    role: role as Role,
    key: JSON.parse(String(key)) as DeviceKey,
    thumbprint: String(thumbprint),
    enrolled: Number(enrolled),
    seen: Number(seen),
    revoked:
      revoked === null
        ? undefined
        : { at: Number(revoked), reason: String(reason), by: String(by), device: textOf(device) },
    invitation: textOf(invitation),
  }
}

function textOf(cell: unknown): string | undefined {
  return typeof cell === 'string' ? cell : undefined
}

function prepare(database: DatabaseSync) {
  return {
    insert: database.prepare(
      'INSERT INTO devices (id, name, role, key, thumbprint, enrolled, invited_by, seen) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
    ),
    taken: database.prepare('SELECT id FROM devices WHERE id = ? OR thumbprint = ?'),
    find: database.prepare('SELECT * FROM devices WHERE id = ?'),
    list: database.prepare(
      'SELECT devices.*, (SELECT invitations.id FROM invitations WHERE used_by = devices.id) AS invitation FROM devices ORDER BY enrolled, id',
    ),
    lead: database.prepare("SELECT id FROM devices WHERE role = 'lead' AND revoked IS NULL LIMIT 1"),
    revoke: database.prepare(
      'UPDATE devices SET revoked = ?, reason = ?, revoked_by = ?, revoked_by_device = ? WHERE id = ? AND revoked IS NULL',
    ),
    unrecorded: database.prepare('SELECT * FROM devices WHERE revoked IS NOT NULL AND recorded = 0'),
    recorded: database.prepare('UPDATE devices SET recorded = ? WHERE id = ?'),
  }
}
