import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { expect, test } from 'vitest'
import { packageOf, signedEntries } from './verify.fixture.ts'
import { verifyPackage } from './verify-package.ts'

const entries = signedEntries()
const sound = packageOf(entries)

test('[PKG8] a package as written is sound in every layer', async () => {
  const verdict = await verifyPackage(sound, { checkSignature })
  expect(verdict).toMatchObject({ sound: true, findings: [] })
  expect(verdict.holds).toEqual([
    'archive',
    'manifest',
    'files',
    'record',
    'signatures',
    'devices',
    'keys',
    'tree',
    'tables',
    'attachments',
    'reports',
  ])
  expect(verdict.facts).toMatchObject({ entries: 22, signed: 21, unsigned: 1, devices: 5, revoked: 1, pictures: 1 })
})
