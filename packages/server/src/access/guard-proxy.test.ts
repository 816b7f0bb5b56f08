import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { buildApp } from '../api/app.ts'
import { type ClosedServer, closedServer, testDevice } from './closed-server.fixture.ts'
import { trustedAddresses } from './guard-proxy.ts'

const ORIGIN = 'https://cases.agency.example'
/** What the proxy says of a request it got by HTTPS. */
const BY_HTTPS = { 'x-forwarded-proto': 'https', 'x-forwarded-for': '203.0.113.7', host: 'cases.agency.example' }

let server: ClosedServer
afterEach(() => server.close())

describe('behind a proxy', () => {
  beforeEach(async () => {
    server = await closedServer({ proxy: { origin: ORIGIN, addresses: ['127.0.0.1', '::1'] } })
  })

  test('[ACC16] what came to it by HTTPS is taken: a device comes in, and its cookie is for HTTPS', async () => {
    const through = (asked: Parameters<typeof server.ask>[0]) =>
      server.ask({ ...asked, headers: { ...BY_HTTPS, ...asked.headers } })
    const phone = testDevice('browser-1', through)
    const answer = await phone.enrol(server.invite('lead'))
    expect(answer.status).toBe(200)
    expect(answer.headers['set-cookie']?.[0]).toMatch(/^__Host-rillmark=.*; Secure/)
    expect(answer.headers['strict-transport-security']).toBe('max-age=31536000')
    const invited = await phone.ask({ path: '/api/invitations', body: { role: 'reader' }, headers: { origin: ORIGIN } })
    expect((invited.json() as { url: string }).url).toMatch(/^https:\/\/cases\.agency\.example\/join#/)
  })

  test('[ACC16] what came to it by plain HTTP, or past it, is refused; but for whether the server answers', async () => {
    for (const headers of [{}, { 'x-forwarded-proto': 'http' }, { 'x-forwarded-proto': 'HTTPS, http' }]) {
      const answer = await server.ask({ path: '/api/session/challenge', body: { device: 'browser-1' }, headers })
      expect([answer.status, answer.issue]).toEqual([403, 'x-forwarded-proto'])
    }
    expect((await server.ask({ path: '/api/health' })).status).toBe(200)
  })

  test('[ACC10] [ACC16] only pages of the address people type may write, whatever the request says it is', async () => {
    for (const headers of [
      { origin: 'https://evil.example' },
      { origin: 'http://cases.agency.example' },
      { origin: 'https://evil.example', 'x-forwarded-host': 'evil.example' },
      { origin: 'https://evil.example', host: 'evil.example' },
    ]) {
      const body = { device: 'browser-1' }
      const answer = await server.ask({ path: '/api/session/challenge', body, headers: { ...BY_HTTPS, ...headers } })
      expect([answer.status, answer.issue]).toEqual([403, 'origin'])
    }
  })

  test('[ACC16] one client that tries too often stops itself and not the others behind the proxy', async () => {
    const tried = async (from: string) => {
      const headers = { ...BY_HTTPS, 'x-forwarded-for': from }
      return (await server.ask({ path: '/api/enrolment', body: {}, headers })).status
    }
    const statuses: number[] = []
    for (let n = 0; n < 31; n += 1) statuses.push(await tried('203.0.113.7'))
    expect(statuses.at(-1)).toBe(429)
    // what a client writes itself before the proxy adds to it does not make it another
    expect(await tried('198.51.100.1, 203.0.113.7')).toBe(429)
    expect(await tried('203.0.113.8')).toBe(400)
  })
})

test('[ACC16] another machine than the proxy is not answered at all', async () => {
  server = await closedServer({ proxy: { origin: ORIGIN, addresses: ['192.0.2.10'] } })
  for (const path of ['/api/health', '/api/session', '/']) {
    const answer = await server.ask({ path, headers: BY_HTTPS })
    expect([answer.status, answer.issue]).toEqual([403, 'address'])
  }
})

test('[ACC16] a server for its own machine alone takes nothing that a proxy passed on', async () => {
  server = await closedServer()
  const app = await buildApp({ data: server.data, appFolder: server.folder, loopbackOnly: true, log: () => undefined })
  const statuses = await Promise.all(
    ['x-forwarded-for', 'x-forwarded-host', 'x-forwarded-proto', 'x-real-ip', 'forwarded'].map(async (name) => {
      const headers = { host: 'localhost:8710', [name]: '203.0.113.7' }
      return (await app.inject({ url: '/api/investigations', headers })).statusCode
    }),
  )
  expect(statuses).toEqual([403, 403, 403, 403, 403])
  expect((await app.inject({ url: '/api/investigations', headers: { host: 'localhost:8710' } })).statusCode).toBe(200)
  await app.close()
})

test('addresses and networks are read, and nothing else', async () => {
  server = await closedServer()
  const list = trustedAddresses(['192.0.2.0/24', '2001:db8::/32', '::1'])
  expect([list.check('192.0.2.9'), list.check('192.0.3.9'), list.check('2001:db8::9', 'ipv6')]).toEqual([
    true,
    false,
    true,
  ])
  for (const wrong of ['', 'localhost', '192.0.2.0/33', '192.0.2.0/24/1', '192.0.2.0/', '*', '192.0.2'])
    expect(() => trustedAddresses([wrong])).toThrow('it is no address')
})
