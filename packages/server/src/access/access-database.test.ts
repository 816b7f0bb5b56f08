import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openAccessDatabase } from './access-database.ts'
import { ConsignmentLinks } from './consignment-links.ts'
import { Devices } from './devices.ts'
import { Invitations } from './invitations.ts'

/** The register as the first format had it. */
const FIRST = `
  CREATE TABLE devices (
    id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL, key TEXT NOT NULL, thumbprint TEXT NOT NULL UNIQUE,
    enrolled INTEGER NOT NULL, invited_by TEXT NOT NULL, seen INTEGER NOT NULL,
    revoked INTEGER, reason TEXT, revoked_by TEXT, recorded INTEGER NOT NULL DEFAULT 0
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE invitations (
    id TEXT PRIMARY KEY, hash TEXT NOT NULL, role TEXT NOT NULL, name TEXT, made_by TEXT NOT NULL,
    expires INTEGER NOT NULL, used_by TEXT
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE sessions (
    id TEXT PRIMARY KEY, hash TEXT NOT NULL, previous TEXT, rotated INTEGER NOT NULL,
    device TEXT NOT NULL REFERENCES devices (id), made INTEGER NOT NULL, used INTEGER NOT NULL
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE links (
    number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, hash TEXT NOT NULL,
    investigation TEXT NOT NULL, consignment TEXT NOT NULL, made INTEGER NOT NULL, made_by TEXT NOT NULL,
    expires INTEGER NOT NULL, received TEXT, revoked INTEGER
  ) STRICT;
  INSERT INTO devices VALUES ('browser-1', 'Desk', 'lead', '{}', 'aa', 1, 'terminal', 1, NULL, NULL, NULL, 0),
    ('browser-2', 'Phone', 'lead', '{}', 'bb', 2, 'Desk', 2, 3, 'lost', 'Desk', 1);
  INSERT INTO invitations VALUES ('used', 'aa', 'lead', NULL, 'Desk', 9, 'browser-2'),
    ('open', 'bb', 'lead', NULL, 'Desk', 9, NULL), ('others', 'cc', 'lead', NULL, 'terminal', 9, NULL);
  INSERT INTO links VALUES (7, 'one', 'aa', 'marram-house', 'Box 1', 1, 'Desk', 9, NULL, NULL);
  PRAGMA user_version = 1;
`

let folder: string
beforeEach(() => void (folder = mkdtempSync(join(tmpdir(), 'rillmark-register-'))))
afterEach(() => rmSync(folder, { recursive: true, force: true }))

test('[ACC12] a register of the first format is read on, and what a device made then is known by its name', () => {
  const path = join(folder, 'access.sqlite')
  const before = new DatabaseSync(path)
  before.exec(FIRST)
  before.close()
  for (let n = 0; n < 2; n += 1) openAccessDatabase(path).close()

  const database = openAccessDatabase(path)
  const now = (): number => 5
  const [devices, invitations, links] = [
    new Devices(database, now),
    new Invitations(database, now),
    new ConsignmentLinks(database, now),
  ]
  expect(devices.list()).toMatchObject([
    { id: 'browser-1', revoked: undefined, invitation: undefined },
    { id: 'browser-2', revoked: { at: 3, reason: 'lost', by: 'Desk', device: undefined }, invitation: 'used' },
  ])
  const desk = { id: 'browser-1', name: 'Desk' }
  invitations.voidThoseOf(desk)
  expect(database.prepare('SELECT id FROM invitations ORDER BY id').all()).toEqual([{ id: 'others' }, { id: 'used' }])
  expect(links.openOf(desk)).toBe(1)
  expect(links.endThoseOf(desk)).toBe(1)
  expect(links.of('marram-house')).toMatchObject([{ number: 7, revoked: 5 }])
  database.close()
})
