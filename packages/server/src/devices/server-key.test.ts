import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openServerKey } from './server-key.ts'

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'rillmark-server-key-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

test('a server keeps one key, for its owner’s eyes only, and what it signs holds by the casebook’s own check', () => {
  const { publicKey, thumbprint, sign } = openServerKey(folder)
  const value = sign('{"said":"é"}')
  expect(checkSignature({ text: '{"said":"é"}', value, key: publicKey })).toBe(true)
  expect(checkSignature({ text: '{"said":"e"}', value, key: publicKey })).toBe(false)
  expect(openServerKey(folder)).toMatchObject({ publicKey, thumbprint })
  expect(readdirSync(folder)).toEqual(['server.key'])
  expect(statSync(join(folder, 'server.key')).mode & 0o777).toBe(0o600)
})

test('a damaged key is named and left as it is: another would not fit what was signed before', () => {
  openServerKey(folder)
  writeFileSync(join(folder, 'server.key'), 'damaged')
  expect(() => openServerKey(folder)).toThrow('server.key as this program wrote it')
  expect(readFileSync(join(folder, 'server.key'), 'utf8')).toBe('damaged')
})
