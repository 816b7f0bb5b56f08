import * as fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Asked, type ClosedServer, closedServer, type TestDevice, testDevice } from './closed-server.fixture.ts'
import { openServerKey } from '../devices/server-key.ts'
import { isProved, ROUTE_LEVELS } from './route-table.ts'

let server: ClosedServer
let lead: TestDevice
beforeAll(async () => {
  server = await closedServer()
  lead = await server.enrolled('lead')
})
afterAll(() => server.close())

const SEED = 20261130

test('[ACC19] whatever comes to the routes of coming in is refused with issues, and nothing is changed', async () => {
  // behind a proxy each try can come from an address of its own, so that none is refused for coming too often
  const proxy = { origin: 'https://cases.agency.example', addresses: ['127.0.0.1'] }
  const behind = await closedServer({ proxy })
  let tries = 0
  const through = (asked: Asked) => {
    tries += 1
    const from = { 'x-forwarded-proto': 'https', 'x-forwarded-for': `198.51.${tries >> 8}.${tries & 255}` }
    return behind.ask({ ...asked, headers: { ...from, ...asked.headers } })
  }
  const insider = testDevice('browser-lead', through)
  expect((await insider.enrol(behind.invite('lead'))).status).toBe(200)
  const before = JSON.stringify(behind.access.deviceList())
  const value = fc.oneof(
    fc.jsonValue({ maxDepth: 3 }),
    fc.constantFrom('__proto__', 'constructor', '\u0000', '\ud800', 'server', "' OR 1=1 --", '../../etc/passwd'),
  )
  const body = fc.dictionary(
    fc.constantFrom('token', 'device', 'name', 'key', 'proof', 'role', 'minutes', 'nonce', 'reason', '__proto__', 'x'),
    value,
  )
  const path = fc.constantFrom(
    '/api/enrolment',
    '/api/session',
    '/api/session/challenge',
    '/api/devices/browser-lead/revocation',
    '/api/investigations/marram-house/consignment-links',
    '/api/receipt',
  )
  await fc.assert(
    fc.asyncProperty(path, fc.oneof(body, value), async (to, sent) => {
      const { status, json } = await insider.ask({ path: to, body: sent })
      // an empty object with a name that is one is all a challenge asks for
      const isChallenge = to === '/api/session/challenge' && status === 200
      const { issues = [] } = json() as { issues?: { path: string; expected: string; received: string }[] }
      expect(isChallenge || ([400, 401, 403, 404, 422].includes(status) && issues.length > 0)).toBe(true)
      for (const each of issues) expect(Object.keys(each).sort()).toEqual(['expected', 'path', 'received'])
    }),
    { seed: SEED, numRuns: 300 },
  )
  expect(JSON.stringify(behind.access.deviceList())).toBe(before)
  expect(behind.failures).toEqual([])
  await behind.close()
})

test('[ACC19] bodies that are no JSON, too large or of another type are refused before anything is looked up', async () => {
  const tried = async (raw: Uint8Array | string, type = 'application/json') =>
    (await server.ask({ path: '/api/enrolment', raw, headers: { 'content-type': type } })).status
  expect(await tried('{')).toBe(400)
  expect(await tried(Buffer.from([0xff, 0xfe, 0x00]))).toBe(400)
  expect(await tried(' '.repeat(1024 * 1024 + 1))).toBe(413)
  expect(await tried('a=1', 'application/x-www-form-urlencoded')).toBe(415)
  expect(await tried('<x/>', 'text/xml')).toBe(415)
  expect(await tried('['.repeat(100_000))).toBe(400)
})

test('[SRV13] [ACC8] the API describes every route of the table, and who may call it', async () => {
  const { paths } = (await lead.ask({ path: '/api/openapi.json' })).json() as {
    paths: Record<string, Record<string, { summary?: string; security?: object[]; responses?: object }>>
  }
  for (const [line, level] of Object.entries(ROUTE_LEVELS)) {
    const [method = '', url = ''] = line.split(' ')
    if (url === '/*' || url === '/api/openapi.json') continue
    const described = paths[url.replace(/:(?<name>\w+)/g, '{$<name>}')]?.[method.toLowerCase()]
    expect([line, typeof described?.summary]).toEqual([line, 'string'])
    const proof = isProved(method, url) ? { proof: [] } : {}
    const security =
      level === 'anyone' ? [] : level === 'link' ? [{ consignment: [] }] : [{ session: [level], ...proof }]
    expect([line, described?.security]).toEqual([line, security])
  }
})

test('[ACC18] [SRV14] what a page may do stands in its headers: the camera here, nothing from elsewhere, no promise of HTTPS', async () => {
  const { headers } = await server.ask({ path: '/api/health' })
  expect(headers['permissions-policy']).toContain('camera=(self)')
  expect(headers['permissions-policy']).toContain('microphone=()')
  expect(headers['strict-transport-security']).toBeUndefined()
  expect(headers['referrer-policy']).toBe('no-referrer')
  expect(headers['cross-origin-opener-policy']).toBe('same-origin')
  expect(headers['cross-origin-resource-policy']).toBe('same-origin')
  expect(headers['content-security-policy']).toContain("worker-src 'self';")
  expect(headers['content-security-policy']).not.toContain('unsafe-inline')
  expect(headers['x-powered-by']).toBeUndefined()
})

test('[ACC14] a device can fetch the certificate it is to trust, and it is that of the authority', async () => {
  const { X509Certificate } = await import('node:crypto')
  const answer = await server.ask({ path: '/api/certificate' })
  expect(answer.headers['content-type']).toBe('application/x-x509-ca-cert')
  const authority = new X509Certificate(server.authority ?? Buffer.alloc(0))
  expect(Number(answer.headers['content-length'])).toBe(authority.raw.length)
})

test('[ACC23] the key of the receipts is told to whoever is in, whatever the role, and to nobody else', async () => {
  const want = { thumbprint: openServerKey(server.folder).thumbprint }
  expect((await server.ask({ path: '/api/server-key' })).status).toBe(401)
  const reader = await server.enrolled('reader')
  expect((await reader.ask({ path: '/api/server-key' })).json()).toEqual(want)
  expect((await lead.ask({ path: '/api/server-key' })).json()).toEqual(want)
})
