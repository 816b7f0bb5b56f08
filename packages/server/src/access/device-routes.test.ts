import { X509Certificate } from 'node:crypto'
import { request } from 'node:https'
import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { openServerKey } from '../devices/server-key.ts'
import { type ClosedServer, closedServer, type TestDevice, testDevice } from './closed-server.fixture.ts'
import { recordRevocation, recordRevocationsLeft } from './record-revocation.ts'

const OPENED = { title: 'Marram House', setting: 'hotel', openedOn: '2026-03-02', reason: 'two cases' } as const

let server: ClosedServer
let lead: TestDevice
let phone: TestDevice
beforeEach(async () => {
  server = await closedServer()
  lead = await server.enrolled('lead')
  phone = await server.enrolled('sampler')
})
afterEach(() => server.close())

const revoke = (id: string, by = lead) =>
  by.ask({ path: `/api/devices/${id}/revocation`, body: { reason: 'left on a bus' } })
const options = () => ({
  access: server.access,
  records: server.data.records,
  key: () => openServerKey(server.folder),
  log: (error: unknown) => void server.failures.push(error),
})
const joinIn = async (investigation: string) => {
  const { status } = await phone.push(
    [phone.joined('sampler', investigation), phone.written('investigation.opened', OPENED, investigation)],
    investigation,
  )
  expect(status).toBe(200)
}

/** A request whose body stops after twenty bytes until the rest is asked for; then its status. */
function slowly({ jar }: TestDevice, { path, body }: { path: string; body: string }) {
  const ca = new X509Certificate(server.authority ?? '').toString()
  const headers = {
    cookie: jar.cookie,
    'content-type': 'application/json',
    'content-length': String(Buffer.byteLength(body)),
  }
  const to = { host: '127.0.0.1', port: server.port, servername: 'localhost', ca, path, method: 'POST', headers }
  const asking = request({ ...to, agent: false })
  const status = new Promise<number>((done, failed) => {
    asking.on('error', failed)
    asking.on('response', (response) => done(response.resume().statusCode ?? 0))
  })
  const first = new Promise<void>((done) => asking.write(body.slice(0, 20), () => setTimeout(done, 200)))
  return {
    first,
    rest: () => {
      asking.end(body.slice(20))
      return status
    },
  }
}

describe('putting a device out', () => {
  test('[ACC12] it is out at once, and neither its name nor its key comes in again', async () => {
    expect((await revoke(phone.id)).json()).toEqual({ device: phone.id, records: [], left: [], endedLinks: 0 })
    expect((await phone.ask({ path: '/api/investigations' })).status).toBe(401)
    expect((await phone.comeBack()).issue).toBe('proof')
    expect((await phone.enrol(server.invite('sampler'))).issue).toBe('device')
    const token = server.invite('sampler')
    const renamed = { token, device: 'browser-renamed', key: phone.key }
    const again = { ...renamed, name: 'Again', proof: phone.proof(renamed) }
    expect((await server.ask({ path: '/api/enrolment', body: again })).issue).toBe('device')
    const { devices } = (await lead.ask({ path: '/api/devices' })).json() as { devices: object[] }
    expect(devices).toMatchObject([
      { id: lead.id, role: 'lead' },
      { id: phone.id, role: 'sampler', revoked: { reason: 'left on a bus', by: `Device ${lead.id}` } },
    ])
    expect(JSON.stringify(devices)).not.toContain(phone.key.x)
  })

  test('[ACC12] the server writes so, signed by its own key, into every record it joined and no other', async () => {
    await joinIn('marram-house')
    await joinIn('quillhaven')
    await lead.push(
      [lead.joined('lead', 'elsewhere'), lead.written('investigation.opened', OPENED, 'elsewhere')],
      'elsewhere',
    )
    const answer = await revoke(phone.id)
    expect(answer.json()).toMatchObject({ device: phone.id, records: ['marram-house', 'quillhaven'], left: [] })
    const { state, head } = await server.data.records.state('quillhaven')
    expect(state.devices.get(phone.id)?.revoked).toMatchObject({
      device: 'server',
      author: `Device ${lead.id}`,
      body: { device: phone.id, reason: 'left on a bus' },
    })
    const links = await server.data.records.links('quillhaven')
    expect(links.map(({ entry }) => entry.kind).slice(2)).toEqual(['device.joined', 'device.revoked'])
    expect(verifyChain(links, { investigation: 'quillhaven', head, checkSignature })).toMatchObject({ sound: true })
    expect((await server.data.ledger.head('elsewhere')).sequence).toBe(2)
  })

  test('[ACC12] a server stopped before it wrote does so at its next start, once', async () => {
    await joinIn('marram-house')
    server.access.devices.revoke(phone.id, { reason: 'lost', by: 'R. Vale' })
    expect((await server.data.records.state('marram-house')).state.devices.get(phone.id)?.revoked).toBeUndefined()
    await recordRevocationsLeft(options())
    expect((await server.data.ledger.head('marram-house')).sequence).toBe(4)
    await recordRevocationsLeft(options())
    expect(await recordRevocation(phone.id, options())).toEqual({ written: ['marram-house'], left: [] })
    expect((await server.data.ledger.head('marram-house')).sequence).toBe(4)
  })

  test('[ACC12] a package that comes in later is told of it too, once', async () => {
    const key = phone.joined('sampler', 'quillhaven')
    const links = linkEntries(emptyHead('quillhaven'), {
      entries: [key, phone.written('investigation.opened', OPENED, 'quillhaven')],
      received: '2026-03-02T12:00:00.000Z',
    })
    await revoke(phone.id)
    const bytes = writePackage(links, { attachments: new Map() })
    const headers = { 'content-type': 'application/zip' }
    const brought = () => lead.ask({ path: '/api/investigations/import', raw: bytes, headers })
    expect((await brought()).json()).toMatchObject({ id: 'quillhaven', added: 2, head: { sequence: 4 } })
    const { state } = await server.data.records.state('quillhaven')
    expect(state.devices.get(phone.id)?.revoked?.body.reason).toBe('left on a bus')
    expect((await brought()).json()).toMatchObject({ added: 0, head: { sequence: 4 } })
    const after = await server.data.records.links('quillhaven')
    expect(verifyChain(after, { investigation: 'quillhaven', checkSignature })).toMatchObject({ sound: true })
  })

  test('[ACC12] what it had begun to send when it was put out is not taken', async () => {
    const body = JSON.stringify({ entries: [phone.joined('sampler'), phone.written('investigation.opened', OPENED)] })
    const begun = slowly(phone, { path: '/api/investigations/marram-house/entries', body })
    await begun.first
    expect((await revoke(phone.id)).status).toBe(200)
    expect(await begun.rest()).toBe(401)
    expect((await server.data.ledger.head('marram-house')).sequence).toBe(0)
  })

  test('[ACC12] it can be cut off while it listens', async () => {
    await joinIn('marram-house')
    const listening = phone.ask({ path: '/api/investigations/marram-house/events' }).then(
      () => 'ended',
      (error: Error) => error.message,
    )
    await expect.poll(async () => (await lead.ask({ path: '/api/health' })).status).toBe(200)
    await new Promise((done) => setTimeout(done, 300))
    await revoke(phone.id)
    expect(await listening).toBe('aborted')
  })

  test('[ACC12] a stream ends with the session at the latest', async () => {
    await joinIn('marram-house')
    const session = server.access.sessions.find(decodeURIComponent(phone.jar.cookie.split('=')[1] ?? ''))
    const left = () => (session?.ends ?? 0) - server.access.now()
    while (left() > 30 * 60_000) {
      server.pass(20 * 60_000)
      expect((await phone.ask({ path: '/api/session' })).status).toBe(200)
    }
    server.pass(left() - 2000)
    const listening = phone.ask({ path: '/api/investigations/marram-house/events' }).then(
      ({ status }) => String(status),
      (error: Error) => error.message,
    )
    expect(await listening).toBe('aborted')
  })

  test('[ACC12] invitations it made let nobody in any more; those of others of the same name do', async () => {
    const second = await server.enrolled('lead', 'browser-second')
    const invited = async (by: TestDevice) =>
      ((await by.ask({ path: '/api/invitations', body: { role: 'lead' } })).json() as { token: string }).token
    const namesakes = server.access.invitations.make({
      role: 'lead',
      minutes: 15,
      by: `Device ${second.id}`,
      maker: 'browser-namesake',
    })
    const [lost, good] = [await invited(second), await invited(lead)]
    expect((await revoke(second.id)).status).toBe(200)
    expect((await testDevice('browser-thief', server.ask).enrol(lost)).issue).toBe('token')
    expect((await testDevice('browser-third', server.ask).enrol(good)).status).toBe(200)
    expect((await testDevice('browser-fourth', server.ask).enrol(namesakes.token)).status).toBe(200)
  })

  test('[ACC12] consignment links it made are counted, stay good unless their end is asked for, and end with it then', async () => {
    const made = (by: TestDevice, above: number) =>
      server.access.links.make({
        investigation: 'marram-house',
        consignment: 'Box 1',
        days: 14,
        above,
        by: `Device ${by.id}`,
        maker: by.id,
      })
    const [kept, ended, others] = [
      made(phone, 0),
      made(await server.enrolled('sampler', 'browser-s'), 1),
      made(lead, 2),
    ]
    const counts = async () => {
      const { devices } = (await lead.ask({ path: '/api/devices' })).json() as { devices: { links: number }[] }
      return devices.map(({ links }) => links)
    }
    expect(await counts()).toEqual([1, 1, 1])
    expect((await revoke(phone.id)).json()).toMatchObject({ endedLinks: 0 })
    const end = { path: '/api/devices/browser-s/revocation', body: { reason: 'lost', endLinks: true } }
    expect((await lead.ask(end)).json()).toMatchObject({ endedLinks: 1 })
    expect([kept, ended, others].map(({ token }) => server.access.openLink(token) !== undefined)).toEqual([
      true,
      false,
      true,
    ])
    expect(await counts()).toEqual([1, 1, 0])
  })

  test('[ACC12] it is told which device did it, whatever that calls itself', async () => {
    await revoke(phone.id)
    const { devices } = (await lead.ask({ path: '/api/devices' })).json() as { devices: object[] }
    expect(devices[1]).toMatchObject({ id: phone.id, revoked: { by: `Device ${lead.id}`, device: lead.id } })
  })

  test('[ACC12] only a lead does it, only once, and only to a device there is', async () => {
    expect((await revoke(lead.id, phone)).issue).toBe('role')
    expect((await revoke('browser-nobody')).status).toBe(404)
    expect((await revoke('../devices')).status).toBe(404)
    expect((await lead.ask({ path: `/api/devices/${phone.id}/revocation`, body: { reason: ' ' } })).status).toBe(400)
    expect((await revoke(phone.id)).status).toBe(200)
    expect((await revoke(phone.id)).status).toBe(409)
  })

  test('[ACC12] a lead may put itself out; then the terminal invites again', async () => {
    expect((await revoke(lead.id)).status).toBe(200)
    expect(server.access.devices.hasLead()).toBe(false)
    expect((await lead.ask({ path: '/api/devices' })).status).toBe(401)
    const next = testDevice('browser-next', server.ask)
    expect((await next.enrol(server.invite('lead'))).status).toBe(200)
    expect(server.access.devices.hasLead()).toBe(true)
  })
})
