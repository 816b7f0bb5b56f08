import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import type { FastifyInstance } from 'fastify'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { buildApp } from '../api/app.ts'
import { type Data, openData } from '../data/open-data.ts'

// A server for its own machine alone: whoever sits there may write everything, but not as the server.
let folder: string
let data: Data
let app: FastifyInstance
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'rillmark-outside-'))
  data = openData(folder)
  app = await buildApp({ data, appFolder: join(folder, 'no-app'), loopbackOnly: true, log: () => undefined })
})
afterEach(async () => {
  await app.close()
  await data.ledger.close()
  rmSync(folder, { recursive: true, force: true })
})

interface Pushed {
  readonly accepted: readonly { readonly id: string }[]
  readonly refused: readonly { readonly id: string; readonly issues: readonly { readonly path: string }[] }[]
}

const push = async (entries: readonly unknown[]): Promise<Pushed> => {
  const url = '/api/investigations/marram-house/entries'
  const answer = await app.inject({ method: 'POST', url, headers: { host: 'localhost' }, payload: { entries } })
  return answer.json<Pushed>()
}

const joins = (device: string, role: 'lead' | 'server') => {
  const key = testKey(device)
  return key.sign(
    entryMaker('marram-house', { device }).make('device.joined', { name: 'A program', role, key: key.key }),
  )
}
const noted = (device: string, text = 'x') =>
  entryMaker('marram-house', { device }).make('note.written', { text, purpose: 'note' })

test('[ACC20] a program does not join as a server, nor by a name of the server’s, and what comes with it is taken', async () => {
  const [asServer, byName, another] = [
    joins('script', 'server'),
    joins('server', 'lead'),
    joins('server-0a1b2c3d', 'lead'),
  ]
  const note = noted('phone')
  const { accepted, refused } = await push([asServer, note, byName, another, noted('laboratory-link-1')])
  expect(accepted.map(({ id }) => id)).toEqual([note.id])
  expect(refused.map(({ id, issues }) => [id, issues[0]?.path])).toMatchObject([
    [asServer.id, 'body.role'],
    [byName.id, 'device'],
    [another.id, 'device'],
    [expect.any(String), 'device'],
  ])
  const { state } = await data.records.state('marram-house')
  expect([...state.devices.keys()]).toEqual([])
  expect((await push([joins('script', 'lead')])).refused).toEqual([])
})

test('[ACC20] what the server wrote itself is known when a copy of it is sent back', async () => {
  const { make } = entryMaker('marram-house', { device: 'phone' })
  const first = make('case.recorded', {
    code: 'C1',
    classification: 'probable',
    link: 'not judged',
    isolate: 'not known',
  })
  const second = {
    ...entryMaker('marram-house', { device: 'tablet' }).make('case.recorded', {
      code: 'C1',
      classification: 'confirmed',
      link: 'not judged',
      isolate: 'not known',
    }),
    seen: 0,
  }
  await push([first, second])
  const links = await data.records.links('marram-house')
  expect(links.map(({ entry }) => entry.device)).toEqual(['phone', 'server', 'server'])
  const again = await push(links.map(({ entry }) => entry))
  expect(again.refused).toEqual([])
  expect(again.accepted).toHaveLength(3)
  expect((await data.ledger.head('marram-house')).sequence).toBe(3)
})
