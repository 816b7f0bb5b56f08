import { generateKeyPairSync } from 'node:crypto'
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { TERMINAL } from './invitations.ts'
import { type ClosedServer, closedServer, testDevice } from './closed-server.fixture.ts'

let server: ClosedServer
beforeEach(async () => {
  server = await closedServer()
})
afterEach(() => server.close())

const MINUTE_MS = 60_000

describe('enrolment', () => {
  test('[ACC1] a lead invites, a device comes in with a session and the role of the invitation', async () => {
    const lead = await server.enrolled('lead')
    const invited = await lead.ask({ path: '/api/invitations', body: { role: 'sampler', name: 'Phone 2' } })
    expect(invited.status).toBe(200)
    const { token, url, expires } = invited.json() as { token: string; url: string; expires: string }
    expect(url).toBe(`${server.origin}/join#${token}`)
    expect(Date.parse(expires) - Date.now()).toBeLessThanOrEqual(15 * MINUTE_MS)
    const phone = testDevice('browser-2', server.ask)
    expect((await phone.enrol(token)).json()).toEqual({
      device: 'browser-2',
      role: 'sampler',
      name: 'Device browser-2',
    })
    expect((await phone.ask({ path: '/api/session' })).json()).toEqual({
      device: 'browser-2',
      role: 'sampler',
      name: 'Device browser-2',
    })
  })

  test('[ACC1] an invitation lets one device in: a second finds it used, at the same moment too', async () => {
    const token = server.invite('sampler')
    const phones = ['browser-a', 'browser-b', 'browser-c'].map((id) => testDevice(id, server.ask))
    const answers = await Promise.all(phones.map((phone) => phone.enrol(token)))
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 403, 403])
    expect(server.access.devices.list()).toHaveLength(1)
    expect((await testDevice('browser-d', server.ask).enrol(token)).issue).toBe('token')
  })

  test('[ACC1] the list of devices tells by which invitation each came in, and that of the terminal is no device’s to replace', async () => {
    const lead = await server.enrolled('lead')
    const ask = { path: '/api/invitations', body: { role: 'sampler' } }
    const [one, two] = [await lead.ask(ask), await lead.ask(ask)].map(
      (answer) => answer.json() as { id: string; token: string },
    )
    const from = { role: 'lead', minutes: 15, by: TERMINAL } as const
    const terminals = server.access.invitations.make(from)
    server.access.invitations.make({ ...from, maker: 'browser-other' })
    expect((await testDevice('browser-2', server.ask).enrol(two?.token ?? '')).status).toBe(200)
    const { devices } = (await lead.ask({ path: '/api/devices' })).json() as { devices: object[] }
    expect(devices[1]).toMatchObject({ id: 'browser-2', invitation: two?.id })
    expect(two?.id).not.toBe(one?.id)
    expect(server.access.invitations.open(terminals.token)).toBeDefined()
  })

  test('[ACC2] a device is not called as the server’s own machine is', async () => {
    const token = server.invite('lead')
    const phone = testDevice('browser-2', server.ask)
    for (const name of ['terminal', 'This machine ']) {
      const body = {
        token,
        device: phone.id,
        key: phone.key,
        name,
        proof: phone.proof({ token, device: phone.id, key: phone.key }),
      }
      expect(await phone.ask({ path: '/api/enrolment', body })).toMatchObject({ status: 400, issue: 'name' })
    }
    expect((await phone.enrol(token)).status).toBe(200)
  })

  test('[ACC1] an invitation that has ended lets nobody in, and answers like one that never was', async () => {
    const token = server.invite('lead', 10)
    server.pass(10 * MINUTE_MS)
    const late = await testDevice('browser-late', server.ask).enrol(token)
    const [id] = token.split('.')
    const guessed = await testDevice('browser-late', server.ask).enrol(`${id}.${'A'.repeat(43)}`)
    const invented = await testDevice('browser-late', server.ask).enrol(`${'A'.repeat(12)}.${'A'.repeat(43)}`)
    expect(late.status).toBe(403)
    expect([guessed.text, invented.text]).toEqual([late.text, late.text])
    expect(server.access.devices.list()).toEqual([])
  })

  test('[ACC1] what is kept of tokens opens nothing: only their hashes are in the files', async () => {
    const unused = server.invite('lead')
    const device = await server.enrolled('lead')
    const cookie = decodeURIComponent(device.jar.cookie.split('=')[1] ?? '')
    const files = readdirSync(server.folder).filter((name) => name.startsWith('access.sqlite'))
    const kept = files.map((name) => readFileSync(join(server.folder, name)).toString('latin1')).join('')
    for (const token of [unused, cookie]) {
      const [id = '?', secret = '?'] = token.split('.')
      expect(kept).toContain(id)
      expect(kept).not.toContain(secret)
    }
    for (const name of files) expect(statSync(join(server.folder, name)).mode & 0o777).toBe(0o600)
  })

  test('[ACC2] without the private key nobody comes in, and the invitation is still good', async () => {
    const token = server.invite('sampler')
    const [phone, thief] = [testDevice('browser-1', server.ask), testDevice('browser-1', server.ask)]
    const said = { token, device: phone.id, name: 'Phone', key: phone.key }
    const tries = [
      thief.proof({ token, device: phone.id, key: phone.key }),
      phone.proof({ token, device: 'browser-9', key: phone.key }),
      phone.proof({ token: server.invite('lead'), device: phone.id, key: phone.key }),
      phone.proof({ device: phone.id, nonce: token }),
      'A'.repeat(86),
    ]
    for (const proof of tries)
      expect((await server.ask({ path: '/api/enrolment', body: { ...said, proof } })).issue).toBe('proof')
    expect((await phone.enrol(token)).status).toBe(200)
  })

  test('[ACC2] a name or a key that is in the register does not come in twice, and the invitation is still good', async () => {
    const phone = await server.enrolled('sampler')
    const token = server.invite('lead')
    expect((await phone.enrol(token)).issue).toBe('device')
    const renamed = { token, device: 'browser-other', key: phone.key }
    const answer = await server.ask({
      path: '/api/enrolment',
      body: { ...renamed, name: 'Again', proof: phone.proof(renamed) },
    })
    expect([answer.status, answer.issue]).toEqual([409, 'device'])
    expect((await testDevice('browser-3', server.ask).enrol(token)).status).toBe(200)
  })

  test.each(['server', 'laboratory-link-1', '../x', 'a b', 'x', 'é-phone', 'a'.repeat(81)])(
    '[ACC2] the name %j is not taken',
    async (id) => {
      const answer = await testDevice(id, server.ask).enrol(server.invite('sampler'))
      expect([answer.status, answer.issue]).toEqual([400, 'device'])
    },
  )

  test('[ACC2] a key that is no point of the curve, on another curve, or private is refused', async () => {
    const phone = testDevice('browser-1', server.ask)
    const jwk = generateKeyPairSync('ec', { namedCurve: 'P-384' }).publicKey.export({ format: 'jwk' })
    const own = generateKeyPairSync('ec', { namedCurve: 'P-256' }).privateKey.export({ format: 'jwk' })
    const keys = [
      { ...phone.key, y: phone.key.x },
      { ...phone.key, x: 'A'.repeat(43) },
      jwk,
      own,
      { kty: 'RSA' },
      'key',
      null,
    ]
    for (const key of keys) {
      const token = server.invite('sampler')
      const answer = await server.ask({
        path: '/api/enrolment',
        body: { token, device: phone.id, name: 'Phone', key, proof: 'A'.repeat(86) },
      })
      expect([answer.status, answer.issue?.split('.')[0]]).toEqual([400, 'key'])
    }
  })

  test('[ACC3] no time of the device is asked for: years behind or ahead, it comes in and back', async () => {
    const phone = testDevice('browser-1', server.ask)
    const date = { date: 'Thu, 01 Jan 1970 00:00:00 GMT' }
    const token = server.invite('sampler')
    const body = { token, device: phone.id, name: 'Phone', key: phone.key }
    const proof = phone.proof({ token, device: phone.id, key: phone.key })
    expect((await phone.ask({ path: '/api/enrolment', body: { ...body, proof }, headers: date })).status).toBe(200)
    expect((await phone.comeBack()).status).toBe(200)
    const refused = await phone.ask({ path: '/api/session/challenge', body: { device: phone.id, at: '1970-01-01' } })
    expect(refused.status).toBe(400)
  })

  test('[ACC11] who tries again and again at the door is told to wait', async () => {
    const phone = testDevice('browser-1', server.ask)
    const statuses: number[] = []
    for (let n = 0; n < 32; n += 1) statuses.push((await phone.enrol(`${'A'.repeat(12)}.${'A'.repeat(43)}`)).status)
    expect(statuses.slice(0, 30)).toEqual(Array.from({ length: 30 }, () => 403))
    expect(statuses.slice(30)).toEqual([429, 429])
  })
})
