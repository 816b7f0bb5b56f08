import 'fake-indexeddb/auto'
import { createPublicKey, verify } from 'node:crypto'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { deviceKey } from './device-key.ts'

let databases = 0
const freshDatabase = () => openDatabase(`key-${(databases += 1)}`)

test('[OFF12] the private key of this device can not be read out, and is the same after a reload and in every tab', async () => {
  const database = await freshDatabase()
  const tabs = await Promise.all([deviceKey(database), deviceKey(database), deviceKey(database)])
  const again = await deviceKey(database)
  expect(new Set([...tabs, again].map((key) => key?.thumbprint)).size).toBe(1)
  expect(again?.thumbprint).toMatch(/^[0-9a-f]{64}$/)
  const kept = await database.get('keys', 'device')
  if (kept === undefined) throw new Error('no key was kept')
  expect(kept.privateKey.extractable).toBe(false)
  await expect(crypto.subtle.exportKey('jwk', kept.privateKey)).rejects.toThrow(/extractable/)
})

test('[OFF12] what it signs holds against an implementation of its own, and no other text does', async () => {
  const key = await deviceKey(await freshDatabase())
  if (key === undefined) throw new Error('no key was made')
  const text = 'Marram House · the 4th of March'
  const signature = Buffer.from(await key.sign(text), 'base64url')
  expect(signature).toHaveLength(64)
  // node:crypto is OpenSSL, not the code that signed
  const publicKey = createPublicKey({ key: { ...key.publicKey }, format: 'jwk' })
  const holds = (words: string) =>
    verify('sha256', Buffer.from(words, 'utf8'), { key: publicKey, dsaEncoding: 'ieee-p1363' }, signature)
  expect(holds(text)).toBe(true)
  expect(holds(`${text}.`)).toBe(false)
})
