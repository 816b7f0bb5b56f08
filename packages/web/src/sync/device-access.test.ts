import 'fake-indexeddb/auto'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test, vi } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import { letGo } from '../offline/let-go.ts'
import { deviceAccess } from './device-access.ts'
import { deviceDoor } from './device-door.ts'
import { readEnrolled } from './enrolled.ts'
import { deviceId } from './identity.ts'

const INVITATION = { token: 'an-invitation', name: 'Phone, again' }

test('[OFF20] joined anew and not let in yet, this tab writes nothing more under the old name, and goes on by the new one', async () => {
  const loaded = await openDatabase('join-anew')
  const device = await deviceId(loaded)
  const door = deviceDoor(loaded)
  const asked: string[] = []
  let reachable = false
  vi.stubGlobal('location', { protocol: 'https:' })
  vi.stubGlobal('fetch', async (path: string, init?: RequestInit) => {
    if (!reachable || path !== '/api/enrolment') throw new TypeError('no network')
    const said = JSON.parse(String(init?.body)) as { device: string; name: string }
    asked.push(said.device)
    return Response.json({ device: said.device, role: 'sampler', name: said.name })
  })

  expect(await deviceAccess({ door, device }).join({ ...INVITATION, anew: true })).toMatchObject({ ok: false })
  expect(letGo.get()).toBe('anew here')
  const { make } = entryMaker('marram-house', { device })
  const late = make('note.written', { text: 'late', purpose: 'note' })
  await expect(new IdbOutbox(loaded, device).hold(late)).rejects.toMatchObject({ name: 'InvalidStateError' })

  reachable = true
  expect(await deviceAccess({ door, device }).join({ ...INVITATION, anew: true })).toMatchObject({ ok: true })
  const kept = await openDatabase('join-anew')
  expect(asked).toEqual([await deviceId(kept)])
  expect(asked).not.toEqual([device])
  expect(await readEnrolled(kept)).toEqual({ name: 'Phone, again', role: 'sampler' })
  expect(await new IdbOutbox(kept, device).pending('marram-house')).toEqual([])
  vi.unstubAllGlobals()
})
