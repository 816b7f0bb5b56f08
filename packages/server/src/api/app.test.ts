import { createHash } from 'node:crypto'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import type { FastifyInstance, InjectOptions } from 'fastify'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { type Data, openData } from '../data/open-data.ts'
import { buildApp } from './app.ts'

let folder: string
let data: Data
let app: FastifyInstance
let failures: unknown[]
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'rillmark-api-'))
  data = openData(folder)
  failures = []
  app = await buildApp({
    data,
    appFolder: join(folder, 'no-app'),
    loopbackOnly: true,
    log: (error) => failures.push(error),
  })
})
afterEach(async () => {
  await app.close()
  await data.ledger.close()
  rmSync(folder, { recursive: true, force: true })
})

const HOST = { host: 'localhost:8710' }
async function ask(request: InjectOptions) {
  const response = await app.inject({ ...request, headers: { ...HOST, ...request.headers } })
  return {
    status: response.statusCode,
    headers: response.headers,
    body: response.body,
    raw: response.rawPayload,
    json: () => response.json(),
  }
}
const push = (entries: unknown[], id = 'marram-house') =>
  ask({ method: 'POST', url: `/api/investigations/${id}/entries`, payload: { entries } })
const pull = async (query = '') => (await ask({ url: `/api/investigations/marram-house/entries${query}` })).json()
const writer = () => {
  const { make } = entryMaker('marram-house')
  return {
    make,
    opened: () =>
      make('investigation.opened', {
        title: 'Marram House',
        setting: 'hotel',
        openedOn: '2026-03-02',
        reason: 'two cases',
      }),
    note: (text: string) => make('note.written', { text, purpose: 'note' }),
  }
}

describe('the record', () => {
  test('[SRV2] entries get their order, come back by cursor, and the chain holds', async () => {
    const { opened, note } = writer()
    const pushed = (await push([opened(), note('one'), note('two')])).json()
    expect(pushed.accepted.map(({ sequence }: { sequence: number }) => sequence)).toEqual([1, 2, 3])
    const { links, head } = await pull()
    expect(verifyChain(links, { investigation: 'marram-house', head })).toEqual({ sound: true, head })
    expect(head).toEqual(pushed.head)
    expect((await pull('?after=1&limit=1')).links).toEqual(links.slice(1, 2))
  })

  test('[SRV3] sending the same entries again gives the same answer and adds nothing', async () => {
    const { opened, note } = writer()
    const entries = [opened(), note('one')]
    // but for the clock, which goes on
    const { serverNow: _, ...first } = (await push(entries)).json()
    expect((await push(entries)).json()).toEqual({ ...first, serverNow: expect.any(String) })
    expect((await pull()).links).toHaveLength(2)
  })

  test('[SRV22] a second account is kept beside the first, signed by the server, also when it comes again or the server starts again', async () => {
    const [desk, phone] = [entryMaker('marram-house'), entryMaker('marram-house', { device: 'phone' })]
    const aCase = (of: typeof desk, seen: number) => ({
      ...of.make('case.recorded', { code: 'C1', classification: 'probable', link: 'not judged', isolate: 'not known' }),
      seen,
    })
    const [first, second] = [aCase(desk, 0), aCase(phone, 0)]
    await push([first])
    const answer = (await push([second, phone.make('note.written', { text: 'goes on', purpose: 'note' })])).json()
    expect(answer).toMatchObject({
      accepted: [{ id: second.id, sequence: 3 }, { sequence: 4 }],
      contested: [{ id: second.id, sequence: 3 }],
      refused: [],
    })
    const { links, head } = await pull()
    expect(links[2].entry).toMatchObject({
      kind: 'entry.contested',
      device: 'server',
      body: { entry: second, against: [first.id] },
    })
    expect(verifyChain(links, { investigation: 'marram-house', head, checkSignature })).toMatchObject({
      sound: true,
      signed: 2,
      unsigned: 2,
    })
    const { serverNow: _, ...again } = (await push([second])).json()
    expect(again).toEqual({
      accepted: [{ id: second.id, sequence: 3 }],
      contested: [{ id: second.id, sequence: 3 }],
      refused: [],
      head,
    })
    const beside = openData(folder)
    const { serverNow: _now, ...later } = { serverNow: '', ...(await beside.records.append('marram-house', [second])) }
    expect(later).toEqual(again)
    await beside.ledger.close()
    expect((await pull()).head).toEqual(head)
  })

  test('[SRV22] two processes on one folder that meet two accounts each keep every one once, under one key', async () => {
    const beside = openData(folder)
    const makers = Array.from({ length: 6 }, (_, n) => entryMaker('marram-house', { device: `phone-${n}` }))
    const accounts = makers.map(({ make }) => ({
      ...make('case.recorded', { code: 'C1', classification: 'probable', link: 'not judged', isolate: 'not known' }),
      seen: 0,
    }))
    const outcomes = await Promise.all(
      accounts.map((entry, n) => (n % 2 === 0 ? data : beside).records.append('marram-house', [entry])),
    )
    expect(outcomes.map(({ accepted }) => accepted.length)).toEqual([1, 1, 1, 1, 1, 1])
    const { links } = await pull()
    expect(verifyChain(links, { investigation: 'marram-house', checkSignature })).toMatchObject({ sound: true })
    const kinds = links.map(({ entry }: { entry: { kind: string } }) => entry.kind).toSorted()
    expect(kinds).toEqual(['case.recorded', 'device.joined', ...Array<string>(5).fill('entry.contested')])
    await beside.ledger.close()
  })

  test('[SRV23] the clock of a device is measured as its entries come, kept with each, and told back', async () => {
    const { note } = writer()
    const ahead = 86_400
    const entry = {
      ...note('by a clock a day ahead'),
      instant: new Date(Date.now() + ahead * 1000 - 5000).toISOString(),
    }
    const url = '/api/investigations/marram-house/entries'
    const sent = (entries: unknown[], deviceNow: string) =>
      ask({ method: 'POST', url, payload: { entries, deviceNow } })
    const answer = (await sent([entry], new Date(Date.now() + ahead * 1000).toISOString())).json()
    expect(Math.abs(Date.parse(answer.serverNow) - Date.now())).toBeLessThan(5000)
    const right = { ...note('by a clock that is right'), instant: new Date().toISOString(), device: 'phone' }
    await sent([right], new Date().toISOString())
    const { links } = await pull()
    expect(Math.abs(links[0].clockAheadS - ahead)).toBeLessThanOrEqual(5)
    expect(links[0].entry).toEqual(entry)
    expect('clockAheadS' in links[1]).toBe(false)
    const { state } = await data.records.state('marram-house')
    expect(Math.abs(Date.parse(state.brief.notes[0]?.instant ?? '') - Date.now())).toBeLessThan(15_000)
    expect((await sent([note('x')], 'yesterday')).status).toBe(400)
  })

  test('[SRV23] a clock set right before sending is found alike for every batch that says the same latest instant', async () => {
    const { note } = writer()
    const written = [-2, 20, 23].map((hours, n) => ({
      ...note(`note ${n}`),
      instant: new Date(Date.now() + hours * 3_600_000).toISOString(),
    }))
    const latest = written.at(-1)?.instant
    const sent = (entries: unknown[], deviceNow: string) =>
      ask({
        method: 'POST',
        url: '/api/investigations/marram-house/entries',
        payload: { entries, deviceNow, latest },
      })
    await sent(written.slice(0, 1), new Date().toISOString())
    await sent(written.slice(1, 2), new Date(Date.now() + 90_000).toISOString())
    await sent(written.slice(2), new Date().toISOString())
    const found = (await pull()).links.map(({ clockAheadS }: { clockAheadS?: number }) => clockAheadS)
    expect(Math.abs(found[0] - 23 * 3600)).toBeLessThanOrEqual(5)
    expect(found).toEqual([found[0], found[0], found[0]])
  })

  test('[SRV21] what a device with a key sends unsigned or altered is refused, and the rest of the batch is taken', async () => {
    const key = testKey('phone')
    const { make } = entryMaker('marram-house', { device: 'phone' })
    const joined = key.sign(make('device.joined', { name: 'Phone', role: 'sampler', key: key.key }))
    const [one, two, three] = ['one', 'two', 'three'].map((text) => make('note.written', { text, purpose: 'note' }))
    if (one === undefined || two === undefined || three === undefined) throw new RangeError('three notes are needed')
    const { accepted, refused } = (
      await push([joined, one, { ...key.sign(two), author: 'S. Other' }, key.sign(three)])
    ).json()
    expect(accepted.map(({ id }: { id: string }) => id)).toEqual([joined.id, three.id])
    expect(refused).toMatchObject([
      { id: one.id, issues: [{ path: 'signature' }] },
      { id: two.id, issues: [{ path: 'signature' }] },
    ])
  })

  test('[SRV4] a refused entry comes back with its issues; those around it are taken', async () => {
    const { opened, note, make } = writer()
    const stray = make('note.written', { text: 'x', purpose: 'note' }, { entry: crypto.randomUUID(), reason: 'r' })
    const { accepted, refused } = (await push([opened(), stray, note('one'), 7])).json()
    expect(accepted).toHaveLength(2)
    expect(refused).toMatchObject([
      { id: stray.id, issues: [{ path: 'corrects.entry' }] },
      { id: '', issues: [{ path: '' }] },
    ])
  })

  test('[SRV5] many devices at once: every acknowledged entry is in the record once, in an unbroken chain', async () => {
    const devices = Array.from({ length: 12 }, (_, n) => entryMaker('marram-house', { device: `phone-${n}` }))
    const answers = await Promise.all(
      devices.flatMap(({ make }) => {
        const entries = Array.from({ length: 5 }, (_, n) => make('note.written', { text: `${n}`, purpose: 'note' }))
        return [push(entries), push(entries)]
      }),
    )
    expect(answers.every(({ status }) => status === 200)).toBe(true)
    const { links, head } = await pull()
    expect(links).toHaveLength(60)
    expect(verifyChain(links, { investigation: 'marram-house', head })).toMatchObject({ sound: true })
  })

  test('[SRV6] what another process adds to the same folder is followed', async () => {
    const { opened, note } = writer()
    await push([opened()])
    const beside = openData(folder)
    await beside.records.append('marram-house', [note('from beside')])
    await beside.ledger.close()
    const { accepted } = (await push([note('after')])).json()
    expect(accepted).toMatchObject([{ sequence: 3 }])
  })

  test('[SRV7] the list tells title, head and counts, and follows the record', async () => {
    const { opened, note } = writer()
    await push([opened()])
    await ask({ url: '/api/investigations' })
    await push([note('one')])
    const { investigations } = (await ask({ url: '/api/investigations' })).json()
    expect(investigations).toMatchObject([
      { id: 'marram-house', title: 'Marram House', head: { sequence: 2 }, counts: { entries: 2, cases: 0 } },
    ])
  })
})

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
    expect(failures).toEqual([])
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
    await data.ledger.close()
    const response = await ask({ url: '/api/health' })
    expect(response.status).toBe(500)
    expect(response.json().issues).toMatchObject([{ received: 'a failure inside it; nothing was changed' }])
    expect(failures).toHaveLength(1)
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
    expect(await data.ledger.investigations()).toEqual([])
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
    expect(readdirSync(folder)).not.toContain('attachments')
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
    await data.ledger.forget('marram-house')
    expect((await bring(zip.raw)).json()).toMatchObject({ added: 3, head: { sequence: 3 } })
    await data.ledger.forget('marram-house')
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
    await data.ledger.forget('marram-house')
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
    await app.listen({ host: '127.0.0.1', port: 0 })
    const address = app.server.address()
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
