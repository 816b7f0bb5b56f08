// Every route of the API's own description, given garbage of each sort: a clear refusal, nothing of the inside told, nothing changed.
// A new route is walked without a line here.
import type { InjectOptions } from 'fastify'
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest'
import { complaintAbout, hasIssues } from './complaint.ts'
import { BAD_BODIES, BAD_IDS, BAD_METHODS, BAD_QUERIES, VALID_SHAPED_IDS } from './garbage.ts'
import { INVESTIGATION, LOCAL, type ServerUnderTest, serverUnderTest } from './server-under-test.ts'

interface Operation {
  readonly method: 'DELETE' | 'GET' | 'PATCH' | 'POST' | 'PUT'
  readonly path: string
  readonly parameters: readonly { readonly in: string; readonly name: string }[]
}

// many requests a test: the bound of each is in complaint.ts, and must be reached before this one
vi.setConfig({ testTimeout: 120_000 })

const operations = await described()
let server: ServerUnderTest
beforeAll(async () => {
  server = await serverUnderTest()
})
afterAll(() => server.close())

afterEach(() => server.assertUnharmed())

async function described(): Promise<Operation[]> {
  const asked = await serverUnderTest()
  const answer = await asked.app.inject({ url: '/api/openapi.json', headers: LOCAL })
  await asked.close()
  const { paths } = answer.json<{ paths: Record<string, Record<string, Partial<Operation>>> }>()
  return Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, { parameters = [] }]) => ({
      method: method.toUpperCase() as Operation['method'],
      path,
      parameters,
    })),
  )
}

const SOUND: Readonly<Record<string, string>> = { id: INVESTIGATION, sha256: 'a'.repeat(64), kind: 'diagram.svg' }

/** The address with sound ids, but for those given. */
const address = (path: string, ids: Readonly<Record<string, string>> = {}): string =>
  path.replace(/\{(\w+)\}/g, (_, name: string) => ids[name] ?? SOUND[name] ?? 'x')

const ask = (request: InjectOptions) => server.app.inject({ ...request, headers: { ...LOCAL, ...request.headers } })

type Named = readonly [what: string, request: InjectOptions]

const MICROSECONDS_PER_MS = 1000

/** Sends one after another; what is wrong with any of the answers. */
async function complaints(requests: readonly Named[]): Promise<string[]> {
  const found: string[] = []
  for (const [what, request] of requests) {
    const [began, worked] = [performance.now(), process.cpuUsage()]
    const { statusCode: status, headers, body } = await ask(request)
    const contentType = String(headers['content-type'])
    const { user, system } = process.cpuUsage(worked)
    const workMs = (user + system) / MICROSECONDS_PER_MS
    const complaint = complaintAbout({ what, status, contentType, body, workMs, ms: performance.now() - began })
    if (complaint !== undefined) found.push(complaint)
  }
  return found
}

test('the API describes its routes, so that they can be walked', () => {
  expect(operations.length).toBeGreaterThanOrEqual(15)
})

const WITHOUT_BODY = ['POST /api/demo', 'DELETE /api/session']

/** A route that takes no body is called without one. */
const allowed = (route: string, body: string): boolean =>
  WITHOUT_BODY.includes(route) && ['no body', 'null'].includes(body)

const writing = operations.filter(({ method }) => method !== 'GET')
test.each(writing)('[SRV17] $method $path refuses every bad body', async ({ method, path }) => {
  const requests = BAD_BODIES.filter(({ name }) => !allowed(`${method} ${path}`, name)).map(
    ({ name, type, bytes }): Named => {
      const headers = type === undefined ? {} : { 'content-type': type }
      return [name, { method, url: address(path), payload: Buffer.from(bytes), headers }]
    },
  )
  expect(await complaints(requests)).toEqual([])
})

const addressed = operations.flatMap(({ method, path }) =>
  [...path.matchAll(/\{(\w+)\}/g)].map(([, name = '']) => ({ method, path, name })),
)
test.each(addressed)('[SRV17] $method $path refuses every bad $name', async ({ method, path, name }) => {
  const requests = BAD_IDS.map((bad): Named => [bad, { method, url: address(path, { [name]: bad }) }])
  expect(await complaints(requests)).toEqual([])
})

test.each(addressed.filter(({ path }) => !path.endsWith('/events')))(
  '[SRV17] $method $path gives nothing for a $name that only names the inside of things',
  async ({ method, path, name }) => {
    for (const strange of VALID_SHAPED_IDS) {
      const { body } = await ask({ method, url: address(path, { [name]: strange }) })
      expect(hasIssues(body) || body.startsWith('{"links":[],"head":{"sequence":0,'), `${strange}: ${body}`).toBe(true)
    }
  },
)

const reading = operations.filter(({ method, path }) => method === 'GET' && !path.endsWith('/events'))
const takesQuery = ({ path, parameters }: Operation): boolean =>
  parameters.some((each) => each.in === 'query') || path.endsWith('/documents/{kind}')

test.each(reading.filter(takesQuery))('[SRV17] $method $path refuses every bad query', async ({ method, path }) => {
  const requests = BAD_QUERIES.map((query): Named => [query, { method, url: `${address(path)}?${query}` }])
  expect(await complaints(requests)).toEqual([])
})

test.each(reading.filter((each) => !takesQuery(each)))(
  '[SRV17] $method $path has no query and answers the same with any',
  async ({ method, path }) => {
    const plain = await ask({ method, url: address(path) })
    for (const query of BAD_QUERIES)
      expect((await ask({ method, url: `${address(path)}?${query}` })).body, query).toBe(plain.body)
  },
)

test.each(operations)('[SRV17] $path refuses every method but its own', async ({ path }) => {
  const own = operations.filter((each) => each.path === path).map(({ method }) => String(method))
  const requests = BAD_METHODS.filter((method) => !own.includes(method)).map((method): Named => {
    return [method, { method: method as 'GET', url: address(path), payload: '{"entries":[{}]}' }]
  })
  expect(await complaints(requests)).toEqual([])
})

test('[SRV17] entries that are garbage come back refused, each with its issues', async () => {
  const entries = [null, 0, '', [], {}, { kind: 'constructor' }, { id: {} }, { kind: 'note.written', body: null }]
  const deep = JSON.parse(`${'{"body":['.repeat(5000)}${']}'.repeat(5000)}`) as unknown
  const url = address('/api/investigations/{id}/entries')
  const answer = await ask({ method: 'POST', url, payload: { entries: [...entries, deep] } })
  const { accepted, refused } = answer.json<{ accepted: unknown[]; refused: unknown[] }>()
  expect([accepted.length, refused.length]).toEqual([0, entries.length + 1])
  expect(refused.every((each) => hasIssues(JSON.stringify(each)))).toBe(true)
})

test('[SRV17] nothing of all this changed an object by keys that name its insides', () => {
  expect(Reflect.get({}, 'polluted')).toBeUndefined()
})
