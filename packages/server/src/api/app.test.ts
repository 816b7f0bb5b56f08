import { createHash } from 'node:crypto'
import { readdirSync } from 'node:fs'
import type { InjectOptions } from 'fastify'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { type OpenApp, openApp, writer } from './open-app.fixture.ts'

let served: OpenApp
beforeEach(async () => {
  served = await openApp()
})
afterEach(() => served.close())
const ask: OpenApp['ask'] = (request) => served.ask(request)
const push: OpenApp['push'] = (...given) => served.push(...given)
const pull: OpenApp['pull'] = (query) => served.pull(query)

describe('bad requests', () => {
  const JSON_TYPE = { 'content-type': 'application/json' }
  const ENTRIES = '/api/investigations/marram-house/entries'
  test.each<[string, InjectOptions, number]>([
    ['no JSON', { method: 'POST', url: ENTRIES, payload: '{', headers: JSON_TYPE }, 400],
    ['an empty body', { method: 'POST', url: ENTRIES, payload: '', headers: JSON_TYPE }, 400],
    ['another shape', { method: 'POST', url: ENTRIES, payload: { entry: 1 } }, 400],
    ['no entries', { method: 'POST', url: ENTRIES, payload: { entries: [] } }, 400],
    [
      'too many entries',
      { method: 'POST', url: ENTRIES, payload: { entries: Array.from({ length: 501 }, () => 1) } },
      400,
    ],
    ['too large a body', { method: 'POST', url: ENTRIES, payload: { entries: ['x'.repeat(17 * 1024 * 1024)] } }, 413],
    [
      'another content type',
      { method: 'POST', url: ENTRIES, payload: '<x/>', headers: { 'content-type': 'text/xml' } },
      415,
    ],
    [
      'a key that would change the object itself',
      { method: 'POST', url: ENTRIES, payload: '{"__proto__":{"x":1},"entries":[1]}', headers: JSON_TYPE },
      400,
    ],
    ['a bad cursor', { url: `${ENTRIES}?after=x` }, 400],
    ['a bad limit', { url: `${ENTRIES}?limit=999999` }, 400],
    ['an unknown query', { url: `${ENTRIES}?page=1` }, 400],
    ['an id with a path in it', { url: '/api/investigations/..%2F..%2Fetc/entries' }, 404],
    ['an unknown address', { url: '/api/nothing' }, 404],
    ['an unknown investigation', { url: '/api/investigations/nobody/documents/package.zip' }, 404],
    ['an unknown calculation', { method: 'POST', url: '/api/calculations/none', payload: {} }, 404],
    [
      'a calculation with bad input',
      { method: 'POST', url: '/api/calculations/proportion', payload: { positive: 3, total: 2 } },
      422,
    ],
    [
      'a package that is none',
      {
        method: 'POST',
        url: '/api/investigations/import',
        payload: 'x',
        headers: { 'content-type': 'application/zip' },
      },
      422,
    ],
    ['a package as JSON', { method: 'POST', url: '/api/investigations/import', payload: { a: 1 } }, 415],
    ['an attachment by a bad hash', { url: '/api/attachments/..%2Fx' }, 404],
    ['an attachment nobody sent', { url: `/api/attachments/${'a'.repeat(64)}` }, 404],
    ['another method', { method: 'DELETE', url: ENTRIES }, 404],
  ])('[SRV8] %s is answered with its issues and nothing of the inside', async (_, request, status) => {
    const response = await ask(request)
    expect(response.status).toBe(status)
    const { issues } = response.json()
    expect(issues.length).toBeGreaterThan(0)
    for (const each of issues) expect(Object.keys(each).sort()).toEqual(['expected', 'path', 'received'])
    expect(response.body).not.toMatch(/node_modules|\.ts:\d|at .*\(/)
    expect(served.failures).toEqual([])
  })

  test.each([
    ['/api/calculations/typing-distances', 'POST', 'application/json', 17, '16'],
    [ENTRIES, 'POST', 'application/json', 17, '16'],
    ['/api/demo', 'POST', 'application/json', 2, '1'],
    [`/api/attachments/${'a'.repeat(64)}`, 'PUT', 'image/png', 21, '20'],
  ] as const)(
    '[SRV8] too large a body for %s names the limit and how large it was',
    async (url, method, type, mb, most) => {
      const payload = Buffer.alloc(mb * 1024 * 1024, ' ')
      const response = await ask({ method, url, payload, headers: { 'content-type': type } })
      expect(response.status).toBe(413)
      expect(response.json()).toEqual({
        issues: [{ path: 'body', expected: `at most ${most} MB`, received: `${mb} MB` }],
      })
    },
  )

  test('[SRV8] one byte over the limit does not read as if it were within', async () => {
    const payload = Buffer.alloc(16 * 1024 * 1024 + 1, ' ')
    const response = await ask({ method: 'POST', url: ENTRIES, payload, headers: JSON_TYPE })
    expect(response.json().issues).toEqual([{ path: 'body', expected: 'at most 16 MB', received: '16.1 MB' }])
  })

  test('[SRV8] a failure inside is told to the log, not to the client', async () => {
    await served.data.ledger.close()
    const response = await ask({ url: '/api/health' })
    expect(response.status).toBe(500)
    expect(response.json().issues).toMatchObject([{ received: 'a failure inside it; nothing was changed' }])
    expect(served.failures).toHaveLength(1)
  })

  test.each([
    [{ origin: 'http://evil.example' }],
    [{ origin: 'null' }],
    [{ origin: 'http://localhost:9999' }],
    [{ 'sec-fetch-site': 'cross-site' }],
    [{ host: 'evil.example' }],
    [{ host: 'localhost.evil.example:8710' }],
  ])('[SRV9] a page of another site can write nothing: %j', async (headers) => {
    const { opened } = writer()
    const response = await ask({
      method: 'POST',
      url: '/api/investigations/marram-house/entries',
      payload: { entries: [opened()] },
      headers,
    })
    expect(response.status).toBe(403)
    expect(await served.data.ledger.investigations()).toEqual([])
  })

  test('[SRV9] the server’s own page can', async () => {
    const headers = { origin: 'http://localhost:8710', 'sec-fetch-site': 'same-origin' }
    const response = await ask({
      method: 'POST',
      url: '/api/investigations/marram-house/entries',
      payload: { entries: [writer().opened()] },
      headers,
    })
    expect(response.status).toBe(200)
  })
})

describe('attachments, packages and documents', () => {
  const picture = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 9])
  const sha256 = createHash('sha256').update(picture).digest('hex')
  const put = (name: string, payload: Buffer, type = 'image/png') =>
    ask({ method: 'PUT', url: `/api/attachments/${name}`, payload, headers: { 'content-type': type } })

  test('[SRV10] a picture is kept under its hash and comes back; anything else is refused and leaves no file', async () => {
    expect((await put('b'.repeat(64), picture)).status).toBe(422)
    expect((await put(sha256, Buffer.from('<svg/>'))).status).toBe(415)
    expect((await put(sha256, picture, 'image/jpeg')).status).toBe(415)
    expect((await put(sha256, Buffer.alloc(0))).status).toBe(400)
    expect((await put(sha256, Buffer.alloc(21 * 1024 * 1024))).status).toBe(413)
    expect(readdirSync(served.folder)).not.toContain('attachments')
    expect((await put(sha256, picture)).status).toBe(200)
    const got = await ask({ url: `/api/attachments/${sha256}` })
    expect(got.headers['content-type']).toBe('image/png')
    expect(got.raw).toEqual(picture)
  })

  test('[SRV11] a package goes out of one folder and into another, twice without harm; another story is refused', async () => {
    const { opened, note, make } = writer()
    await put(sha256, picture)
    await push([opened(), make('note.written', { text: 'x', purpose: 'note' }), note('end')])
    const zip = await ask({ url: '/api/investigations/marram-house/documents/package.zip?download=1' })
    expect(zip.headers['content-disposition']).toBe('attachment; filename="marram-house.zip"')
    const bring = (payload: Buffer) =>
      ask({
        method: 'POST',
        url: '/api/investigations/import',
        payload,
        headers: { 'content-type': 'application/zip' },
      })
    expect((await bring(zip.raw)).json()).toMatchObject({ id: 'marram-house', added: 0 })
    await served.data.ledger.forget('marram-house')
    expect((await bring(zip.raw)).json()).toMatchObject({ added: 3, head: { sequence: 3 } })
    await served.data.ledger.forget('marram-house')
    await push([writer().note('another story')])
    const refused = await bring(zip.raw)
    expect(refused.status).toBe(409)
    expect((await pull()).links).toHaveLength(1)
  })

  test('[SRV12] a document that can’t be made yet says what is missing', async () => {
    await push([writer().opened()])
    const response = await ask({ url: '/api/investigations/marram-house/documents/diagram.svg' })
    expect(response.status).toBe(422)
    expect(response.json().issues).toMatchObject([{ path: 'building' }])
    expect((await ask({ url: '/api/investigations/marram-house/documents/nothing.pdf' })).status).toBe(404)
    expect((await ask({ url: '/api/investigations/marram-house/documents/diagram.svg?colour=red' })).status).toBe(400)
  })
})

describe('the service', () => {
  test('[SRV13] the API describes itself, every route of it', async () => {
    const { paths, openapi } = (await ask({ url: '/api/openapi.json' })).json()
    expect(openapi).toBe('3.1.0')
    expect(Object.keys(paths)).toEqual(
      expect.arrayContaining([
        '/api/health',
        '/api/investigations/{id}/entries',
        '/api/calculations/{id}',
        '/api/attachments/{sha256}',
        '/api/investigations/{id}/documents/{kind}',
      ]),
    )
  })

  test('[SRV18] the worked example goes in whole, twice without harm, and never into somebody else’s investigation', async () => {
    const load = () => ask({ method: 'POST', url: '/api/demo' })
    const { note, opened } = writer()
    await push([opened(), note('our own')])
    expect((await load()).status).toBe(409)
    expect((await pull()).links).toHaveLength(2)
    await served.data.ledger.forget('marram-house')
    expect((await load()).json()).toEqual({ id: 'marram-house' })
    const { head } = await pull()
    expect(head.sequence).toBeGreaterThan(500)
    expect((await load()).json()).toEqual({ id: 'marram-house' })
    expect((await pull()).head).toEqual(head)
  })

  test('[SRV14] pages come with a policy that lets nothing in from elsewhere and runs no inline script', async () => {
    const { headers } = await ask({ url: '/api/health' })
    const policy = String(headers['content-security-policy'])
    expect(policy).toContain("default-src 'self'")
    expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval';")
    expect(policy.replace("'wasm-unsafe-eval'", '')).not.toMatch(/unsafe|https?:|\*/)
    expect(headers['x-content-type-options']).toBe('nosniff')
  })

  test('[SRV15] each new head is told to those who listen', async () => {
    await served.app.listen({ host: '127.0.0.1', port: 0 })
    const address = served.app.server.address()
    const port = typeof address === 'object' && address !== null ? address.port : 0
    const response = await fetch(`http://127.0.0.1:${port}/api/investigations/marram-house/events`)
    expect(response.headers.get('content-type')).toBe('text/event-stream')
    const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader()
    expect((await reader?.read())?.value).toContain('"sequence":0')
    await push([writer().opened()])
    expect((await reader?.read())?.value).toContain('"sequence":1')
    await reader?.cancel()
  })

  test('[SRV16] reference data and calculations are given whole', async () => {
    expect((await ask({ url: '/api/reference/procedures' })).json().procedures.length).toBeGreaterThan(5)
    expect((await ask({ url: '/api/reference/criteria' })).json().criteria.length).toBeGreaterThanOrEqual(4)
    expect((await ask({ url: '/api/calculations' })).json().calculations.length).toBeGreaterThanOrEqual(5)
    const answer = (
      await ask({
        method: 'POST',
        url: '/api/calculations/proportion',
        payload: { positive: 0, total: 20, method: 'exact' },
      })
    ).json()
    // Clopper and Pearson, 1934: 0 of 20, two-sided 95 %: upper limit 1 - 0.025^(1/20) (computed)
    expect(answer.result.interval.upper).toBeCloseTo(1 - 0.025 ** (1 / 20), 12)
  })
})
