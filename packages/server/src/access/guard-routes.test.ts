import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fastify from 'fastify'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { buildApp } from '../api/app.ts'
import { openData } from '../data/open-data.ts'
import { Access } from './access.ts'
import { type Answer, type Asked, type ClosedServer, closedServer, type TestDevice } from './closed-server.fixture.ts'
import { guardRoutes } from './guard-routes.ts'
import { type Level, ROUTE_LEVELS } from './route-table.ts'

/** An address of a route with something in each of its places. */
function addressOf(url: string): string {
  return url
    .replace(':sha256', 'a'.repeat(64))
    .replace('/investigations/:id', '/investigations/marram-house')
    .replace('/calculations/:id', '/calculations/proportion')
    .replace('/devices/:id', '/devices/browser-nobody')
    .replace(':kind', 'package.zip')
    .replace(':link', '1')
    .replace('/*', '/index.html')
}

const routes = Object.keys(ROUTE_LEVELS).map((line) => {
  const [method = '', url = ''] = line.split(' ')
  return { line, method, url, level: ROUTE_LEVELS[line] as Level }
})

describe('the table of routes', () => {
  let server: ClosedServer
  let devices: Readonly<Record<'reader' | 'sampler' | 'lead', TestDevice>>
  let revoked: TestDevice
  let bearer: string
  beforeAll(async () => {
    server = await closedServer()
    devices = {
      reader: await server.enrolled('reader'),
      sampler: await server.enrolled('sampler'),
      lead: await server.enrolled('lead'),
    }
    revoked = await server.enrolled('lead', 'browser-revoked')
    server.access.devices.revoke(revoked.id, { reason: 'lost', by: 'R. Vale' })
    const by = { investigation: 'marram-house', consignment: 'C-1', days: 1, by: 'R. Vale', above: 0 }
    bearer = server.access.links.make(by).token
  })
  afterAll(() => server.close())

  const isLetIn = ({ status }: Answer) => status !== 401 && status !== 403
  /** Without a body worth taking, so that nothing happens: who may not is refused before it is looked at. */
  const tried = (
    { method, url }: { method: string; url: string },
    ask: (asked: Asked) => Promise<Answer>,
    headers = {},
  ) => {
    const writes = method === 'POST' || method === 'PUT'
    const body = writes ? { headers: { 'content-type': 'application/json', ...headers }, raw: '[' } : { headers }
    return ask({ method, path: addressOf(url), statusOnly: url.endsWith('/events'), ...body })
  }

  test('[ACC8] has a line for every route there is, and none for a route there is not', async () => {
    const served = server.app.printRoutes({ commonPrefix: false })
    for (const { line, method, url } of routes.filter((route) => route.url !== '/*'))
      expect([line, server.app.hasRoute({ method: method as 'GET', url })]).toEqual([line, true])
    // counted by the router itself, so that one registered past the table would show
    const count = [...served.matchAll(/\((?<methods>[A-Z, ]+)\)/g)].flatMap(({ groups }) =>
      (groups?.['methods'] ?? '').split(', ').filter((method) => method !== 'HEAD'),
    ).length
    expect(count).toBe(routes.filter(({ url }) => url !== '/*').length)
  })

  test('[ACC8] a route without a line keeps the server from starting', async () => {
    const bare = fastify()
    guardRoutes(bare, { access: new Access(server.folder), front: { kind: 'closed' } })
    expect(() => bare.get('/api/forgotten', async () => 'all of it')).toThrow('no line for it: got GET /api/forgotten')
    await bare.close()
  })

  test.each(routes.filter(({ url }) => url !== '/*'))('[ACC8] $line is for $level', async (route) => {
    // whoever has ended their session in the test before starts another
    for (const device of Object.values(devices))
      if ((await device.ask({ path: '/api/session' })).status === 401) await device.comeBack()
    const rank = { anyone: 0, reader: 1, sampler: 2, lead: 3, link: 4 }[route.level]
    const cookie = revoked.jar.cookie
    const got = {
      nobody: isLetIn(await tried(route, server.ask)),
      revoked: isLetIn(await tried(route, server.ask, { cookie })),
      link: isLetIn(await tried(route, server.ask, { authorization: `Bearer ${bearer}` })),
      reader: isLetIn(await tried(route, devices.reader.ask)),
      sampler: isLetIn(await tried(route, devices.sampler.ask)),
      lead: isLetIn(await tried(route, devices.lead.ask)),
    }
    expect(got).toEqual({
      nobody: rank === 0,
      revoked: rank === 0,
      link: rank === 0 || rank === 4,
      reader: rank <= 1,
      sampler: rank <= 2,
      lead: rank <= 3,
    })
  })

  test('[ACC8] what matters most is for whom it should be', () => {
    const lines = (level: Level) => routes.filter((route) => route.level === level).map(({ line }) => line)
    expect(lines('anyone')).toEqual([
      'GET /*',
      'GET /api/health',
      'GET /api/certificate',
      'POST /api/enrolment',
      'POST /api/session/challenge',
      'POST /api/session',
      'DELETE /api/session',
    ])
    expect(lines('lead')).toEqual([
      'POST /api/invitations',
      'POST /api/devices/:id/revocation',
      'POST /api/investigations/import',
      'POST /api/demo',
    ])
    expect(lines('link')).toEqual(['GET /api/receipt', 'POST /api/receipt'])
    // whatever writes and is not for getting in is for samplers at least; a reader only calculates
    const writing = routes.filter(({ method, level }) => method !== 'GET' && level === 'reader').map(({ line }) => line)
    expect(writing).toEqual(['POST /api/calculations/:id'])
  })

  test.each([
    '/api//investigations',
    '/api/./investigations',
    '/api/investigations/',
    '/API/investigations',
    '/api/%69nvestigations',
    '/api/investigations%2F',
    '/api/health/../investigations',
    '/api/health/%2e%2e/investigations',
    '//api/investigations',
    '/index.html/../api/investigations',
    '/api/investigations?x=/api/health',
    '/api/investigations#/api/health',
    '/api/investigations;/api/health',
    '/api\\investigations',
    '/assets/../api/investigations',
  ])('[ACC8] the address %s leads past no guard', async (path) => {
    await recordIn(server, devices.sampler)
    const answer = await server.ask({ path })
    expect([200, 304]).not.toContain(answer.status)
    expect(answer.text).not.toContain('a secret note')
    expect(answer.text).not.toContain('Marram House')
  })

  test.each(['GET', 'HEAD', 'POST', 'PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE', 'PROPFIND'])(
    '[ACC8] by %s nobody gets at a record without a session',
    async (method) => {
      const answer = await server.ask({ method, path: '/api/investigations/marram-house/entries' })
      expect(answer.status).toBeGreaterThanOrEqual(400)
      expect(answer.status).toBeLessThan(500)
      const tunnelled = await server.ask({
        method: 'POST',
        path: '/api/health',
        headers: {
          'x-http-method-override': 'GET',
          'x-original-url': '/api/investigations',
          'x-rewrite-url': '/api/investigations',
        },
      })
      expect(tunnelled.status).toBe(404)
    },
  )

  test('[ACC8] without a session health tells that it answers, and no more', async () => {
    expect((await server.ask({ path: '/api/health' })).json()).toEqual({ ok: true })
    expect((await devices.reader.ask({ path: '/api/health' })).json()).toHaveProperty('investigations')
  })

  test('[ACC18] answers of the API are kept by nobody on the way', async () => {
    for (const path of ['/api/health', '/api/session', '/api/nothing', '/api/investigations'])
      expect((await devices.reader.ask({ path })).headers['cache-control']).toBe('no-store')
  })
})

describe('on its own machine alone', () => {
  test('[ACC8] a server needs no session, and still asks for a consignment link', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'rillmark-open-'))
    const data = openData(folder)
    const app = await buildApp({ data, appFolder: folder, loopbackOnly: true, log: () => undefined })
    const ask = (url: string) => app.inject({ url, headers: { host: 'localhost:8710' } })
    expect((await ask('/api/session')).json()).toEqual({ open: true })
    const got: Record<string, boolean> = {}
    for (const { method, url } of routes)
      if (method === 'GET' && !/\*|events$/.test(url)) got[url] = (await ask(addressOf(url))).statusCode === 401
    const asking = Object.entries(got).filter(([, asked]) => asked)
    expect(asking).toEqual([['/api/receipt', true]])
    expect(Object.keys(got).length).toBeGreaterThan(10)
    await app.close()
    await data.ledger.close()
    rmSync(folder, { recursive: true, force: true })
  })
})

/** Writes a record worth reading, once. */
async function recordIn(server: ClosedServer, sampler: TestDevice): Promise<void> {
  if ((await server.data.ledger.head('marram-house')).sequence > 0) return
  const told = { title: 'Marram House', setting: 'hotel', openedOn: '2026-03-02', reason: 'a secret note' } as const
  const { status } = await sampler.push([sampler.joined('sampler'), sampler.written('investigation.opened', told)])
  expect(status).toBe(200)
}
