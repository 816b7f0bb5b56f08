import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { signedText } from '@rillmark/casebook/devices/signed-text.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { serve } from '../api/serve.ts'
import { openServerKey } from '../devices/server-key.ts'
import { type ClosedServer, closedServer, type TestDevice } from './closed-server.fixture.ts'

const OPENED = { title: 'Marram House', setting: 'hotel', openedOn: '2026-03-02', reason: 'two cases' } as const
const REVOKED = { reason: 'left on a bus' }

let server: ClosedServer
let lead: TestDevice
let phone: TestDevice
beforeEach(async () => {
  server = await closedServer()
  lead = await server.enrolled('lead')
  phone = await server.enrolled('sampler')
})
afterEach(() => server.close())

const revoke = () => lead.ask({ path: `/api/devices/${phone.id}/revocation`, body: REVOKED })
const stateOf = async (investigation: string) => (await server.data.records.state(investigation)).state

/** A record as it comes from another server: there, that one is `server`, and this phone was in it. */
async function takeRecordOfAnother(investigation: string): Promise<void> {
  const other = testKey('another server')
  const { make } = entryMaker(investigation, { device: 'server' })
  const entries = [
    other.sign(make('device.joined', { name: 'Server', role: 'server', key: other.key })),
    phone.joined('sampler', investigation),
    phone.written('investigation.opened', OPENED, investigation),
  ]
  const links = linkEntries(emptyHead(investigation), { entries, received: '2026-03-02T12:00:00.000Z' })
  await server.data.records.importRecord(investigation, links)
}

/** A record that takes nothing more from this server: its lead put it out there. */
async function takeRecordWithout(investigation: string): Promise<void> {
  const { publicKey, thumbprint, sign } = openServerKey(server.folder)
  const { make } = entryMaker(investigation, { device: 'server' })
  const joined = make('device.joined', { name: 'Server', role: 'server', key: publicKey })
  const entries = [
    { ...joined, signature: { key: thumbprint, value: sign(signedText(joined)) } },
    lead.joined('lead', investigation),
    phone.joined('sampler', investigation),
    lead.written('device.revoked', { device: 'server', reason: 'moved' }, investigation),
  ]
  const links = linkEntries(emptyHead(investigation), { entries, received: '2026-03-02T12:00:00.000Z' })
  await server.data.records.importRecord(investigation, links)
}

test('[ACC12] into a record that came from another server, this one writes it beside that one', async () => {
  await takeRecordOfAnother('quillhaven')
  expect((await revoke()).json()).toEqual({ device: phone.id, records: ['quillhaven'], left: [], endedLinks: 0 })
  const device = `server-${openServerKey(server.folder).thumbprint.slice(0, 8)}`
  expect((await stateOf('quillhaven')).devices.get(phone.id)?.revoked).toMatchObject({ device, body: REVOKED })
  const links = await server.data.records.links('quillhaven')
  expect(verifyChain(links, { investigation: 'quillhaven', checkSignature })).toMatchObject({ sound: true })
  expect(server.failures).toEqual([])
})

test('[ACC12] a record that can’t take it holds up no other, is told of, and is tried again when asked and at the next start', async () => {
  await takeRecordWithout('a-closed-record')
  await takeRecordOfAnother('quillhaven')
  const told = { device: phone.id, records: ['quillhaven'], left: ['a-closed-record'], endedLinks: 0 }
  expect((await revoke()).json()).toEqual(told)
  expect((await revoke()).json()).toEqual(told)
  expect(server.failures).toHaveLength(2)
  expect((await phone.ask({ path: '/api/investigations' })).status).toBe(401)
  const log: unknown[] = []
  const started = await serve({
    dataFolder: server.folder,
    host: '127.0.0.1',
    port: 0,
    demo: false,
    proxy: { origin: 'https://cases.agency.example', addresses: ['127.0.0.1'] },
    plainHttp: true,
    log: (error) => log.push(error),
  })
  await started.close()
  expect(log.map(String)).toEqual([expect.stringContaining(`the revocation of ${phone.id} into a-closed-record`)])
})
