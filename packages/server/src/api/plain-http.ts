import type { Server } from 'node:http'
import type { Socket } from 'node:net'
import type { TLSSocket } from 'node:tls'

const WORDS = 'This server speaks HTTPS only: type https:// before its address.\n'
const ANSWER = [
  'HTTP/1.1 400 Bad Request',
  'content-type: text/plain; charset=utf-8',
  `content-length: ${Buffer.byteLength(WORDS)}`,
  'connection: close',
  '',
  WORDS,
].join('\r\n')

/** Tells whoever speaks plain HTTP to a server of HTTPS what is wrong: without it the connection ends without a word. */
export function answerPlainHttp(server: Server): void {
  const sockets = new Map<string, Socket>()
  server.prependListener('connection', (socket: Socket) => {
    const peer = peerOf(socket)
    sockets.set(peer, socket)
    socket.once('close', () => {
      if (sockets.get(peer) === socket) sockets.delete(peer)
    })
  })
  server.on('tlsClientError', (error: NodeJS.ErrnoException, secured: TLSSocket) => {
    if (error.code === 'ERR_SSL_HTTP_REQUEST') sockets.get(peerOf(secured))?.end(ANSWER)
  })
}

const peerOf = ({ remoteAddress, remotePort }: Socket): string => `${remoteAddress} ${remotePort}`
