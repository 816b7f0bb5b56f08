import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { deviceKey } from './device-key.ts'
import { keepEnrolled, readEnrolled } from './enrolled.ts'
import { becomeAnother, deviceId } from './identity.ts'

test('[OFF20] a browser has one name, over all its tabs, until it becomes another device with a key of its own', async () => {
  const database = await openDatabase('identity')
  const names = await Promise.all([deviceId(database), deviceId(database)])
  const before = await deviceKey(database)
  await keepEnrolled(database, { name: 'Phone 2', role: 'lead' })
  expect(new Set([...names, await deviceId(database)]).size).toBe(1)
  const next = await becomeAnother(database)
  expect(next).not.toBe(names[0])
  expect(await deviceId(database)).toBe(next)
  const after = await deviceKey(database)
  expect(after?.thumbprint).not.toBe(before?.thumbprint)
  expect((await database.get('keys', 'device'))?.privateKey.extractable).toBe(false)
  // as whom it was let in before does not go with the new name
  expect(await readEnrolled(database)).toBeUndefined()
})
