import { request } from 'node:http'
import { connect } from 'node:net'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type ClosedServer, closedServer } from '../access/closed-server.fixture.ts'

let server: ClosedServer
beforeAll(async () => {
  server = await closedServer()
})
afterAll(() => server.close())

const plain = (path: string): Promise<{ status: number | undefined; text: string }> =>
  new Promise((resolve, reject) => {
    const asked = request({ host: '127.0.0.1', port: server.port, path, agent: false }, (answer) => {
      const pieces: Buffer[] = []
      answer.on('data', (piece: Buffer) => pieces.push(piece))
      answer.on('end', () => resolve({ status: answer.statusCode, text: Buffer.concat(pieces).toString() }))
    })
    asked.on('error', reject)
    asked.end()
  })

test('[ACC22] plain HTTP to a server of HTTPS is answered in one line, as often as it is tried', async () => {
  for (const path of ['/', '/api/health', '/'])
    expect(await plain(path)).toEqual({
      status: 400,
      text: 'This server speaks HTTPS only: type https:// before its address.\n',
    })
  expect((await server.ask({ path: '/api/health' })).status).not.toBe(400)
  expect(server.failures).toEqual([])
})

test('[ACC22] what is neither HTTPS nor HTTP is let go without an answer', async () => {
  const got = await new Promise<string>((resolve, reject) => {
    const socket = connect({ host: '127.0.0.1', port: server.port }, () => socket.write('\0\0 no protocol at all \r\n'))
    let text = ''
    socket.on('data', (piece) => (text += piece.toString('latin1')))
    socket.on('error', reject)
    socket.on('close', () => resolve(text))
  })
  expect(got).not.toContain('HTTP')
})
