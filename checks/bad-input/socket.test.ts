// What only a raw connection can send: no HTTP, half of a request, a body that is not what was announced, an early end.
import { connect } from 'node:net'
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import { hasIssues } from './complaint.ts'
import { type ServerUnderTest, serverUnderTest } from './server-under-test.ts'

let server: ServerUnderTest
let port: number
beforeAll(async () => {
  server = await serverUnderTest()
  await server.app.listen({ host: '127.0.0.1', port: 0 })
  const address = server.app.server.address()
  port = typeof address === 'object' && address !== null ? address.port : 0
})
afterAll(() => server.close())

afterEach(() => server.assertUnharmed())

const ENTRIES = 'POST /api/investigations/marram-house/entries HTTP/1.1\r\nhost: localhost\r\n'
const JSON_TYPE = 'content-type: application/json\r\n'

const WAIT_MS = 400

/** Sends the bytes, ends its side when told to, and gives what came back until the server closed or time was up. */
function send(bytes: Uint8Array | string, { end }: { end: boolean }): Promise<string> {
  return new Promise((done) => {
    let answer = ''
    const socket = connect({ host: '127.0.0.1', port }, () => {
      socket.write(bytes)
      if (end) socket.end()
    })
    const finish = () => {
      clearTimeout(timer)
      socket.destroy()
      done(answer)
    }
    const timer = setTimeout(finish, WAIT_MS)
    socket.on('data', (chunk) => (answer += chunk.toString('latin1')))
    socket.on('close', finish)
    socket.on('error', finish)
  })
}

test.each<[string, Uint8Array | string, RegExp]>([
  ['no HTTP at all', 'hello\r\n\r\n', /^HTTP\/1\.1 400 /],
  ['bytes at random', Uint8Array.from({ length: 4000 }, (_, at) => (at * 7919) % 251), /^HTTP\/1\.1 400 /],
  ['the opening of an encrypted connection', Uint8Array.of(0x16, 3, 1, 2, 0, 1, 0, 1, 0xfc, 3, 3), /^HTTP\/1\.1 400 /],
  ['a version there is not', 'GET /api/health HTTP/9.9\r\nhost: localhost\r\n\r\n', /^HTTP\/1\.1 400 /],
  ['no host', 'GET /api/health HTTP/1.1\r\n\r\n', /^HTTP\/1\.1 4\d\d /],
  ['a header without a name', 'GET /api/health HTTP/1.1\r\n: x\r\n\r\n', /^HTTP\/1\.1 400 /],
  ['a zero byte in a header', 'GET /api/health HTTP/1.1\r\nhost: local\0host\r\n\r\n', /^HTTP\/1\.1 400 /],
  ['headers without end', `GET /api/health HTTP/1.1\r\nx: ${'y'.repeat(70_000)}`, /^HTTP\/1\.1 431 /],
  ['a length that is no number', `${ENTRIES}${JSON_TYPE}content-length: x\r\n\r\n{}`, /^HTTP\/1\.1 400 /],
  ['a negative length', `${ENTRIES}${JSON_TYPE}content-length: -1\r\n\r\n{}`, /^HTTP\/1\.1 400 /],
  ['a length beyond any', `${ENTRIES}${JSON_TYPE}content-length: 99999999999\r\n\r\n{}`, /^HTTP\/1\.1 413 /],
  [
    'two lengths, as a smuggler sends them',
    `${ENTRIES}${JSON_TYPE}content-length: 2\r\ntransfer-encoding: chunked\r\n\r\n0\r\n\r\n`,
    /^HTTP\/1\.1 400 /,
  ],
  [
    'a piece whose size is no number',
    `${ENTRIES}${JSON_TYPE}transfer-encoding: chunked\r\n\r\nzz\r\n{}\r\n`,
    /^HTTP\/1\.1 400 /,
  ],
  ['an address with raw bytes', 'GET /api/\xff\xfe HTTP/1.1\r\nhost: localhost\r\n\r\n', /^HTTP\/1\.1 4\d\d /],
])('[SRV17] %s is answered and the connection is closed', async (_, bytes, wanted) => {
  const answer = await send(bytes, { end: false })
  expect(answer).toMatch(wanted)
  expect(hasIssues(answer.split('\r\n\r\n')[1] ?? ''), answer).toBe(true)
  expect(answer).not.toMatch(/node_modules|FST_ERR|HPE_|\n\s+at /)
})

test.each<[string, string]>([
  ['nothing', ''],
  ['half of the first line', 'GET /api/hea'],
  ['half of the headers', 'GET /api/health HTTP/1.1\r\nhost: loc'],
  ['half of a body', `${ENTRIES}${JSON_TYPE}content-length: 500\r\n\r\n{"entries":[`],
  ['half of a piece', `${ENTRIES}${JSON_TYPE}transfer-encoding: chunked\r\n\r\nff\r\n{"entries"`],
  [
    'half of a picture',
    `PUT /api/attachments/${'a'.repeat(64)} HTTP/1.1\r\nhost: localhost\r\ncontent-type: image/png\r\ncontent-length: 9000\r\n\r\n\x89PNG`,
  ],
  [
    'half of a package',
    'POST /api/investigations/import HTTP/1.1\r\nhost: localhost\r\ncontent-type: application/zip\r\ncontent-length: 9000\r\n\r\nPK',
  ],
  ['a question whose answer nobody waits for', 'GET /api/calculations HTTP/1.1\r\nhost: localhost\r\n\r\n'],
])('[SRV17] a connection that ends after %s changes nothing', async (_, bytes) => {
  expect(await send(Buffer.from(bytes, 'latin1'), { end: true })).not.toMatch(/^HTTP\/1\.1 5/)
  const socket = connect({ host: '127.0.0.1', port }, () => {
    socket.write(Buffer.from(bytes, 'latin1'))
    setTimeout(() => socket.resetAndDestroy(), 20)
  })
  socket.on('error', () => undefined)
  await new Promise((done) => socket.on('close', done))
})
