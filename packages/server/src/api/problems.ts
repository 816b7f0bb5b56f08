import { STATUS_CODES } from 'node:http'
import type { Socket } from 'node:net'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { dataProblemOf } from '../folder/data-problem.ts'
import type { Told, ToldBy } from '../folder/told-problem.ts'
import { Problem } from '../http/problem.ts'

/** What Fastify itself refuses, in the same words as everything else. */
const KNOWN: ToldBy<string> = {
  FST_ERR_CTP_INVALID_MEDIA_TYPE: { expected: 'a body of a type this route takes', received: 'another content type' },
  FST_ERR_CTP_EMPTY_JSON_BODY: { expected: 'JSON', received: 'an empty body' },
  FST_ERR_CTP_INVALID_JSON_BODY: { expected: 'JSON', received: 'text that is not JSON' },
  FST_ERR_BAD_URL: { expected: 'an address in percent-encoded UTF-8', received: 'one that can’t be decoded' },
  FST_ERR_MAX_PARAM_LENGTH: { expected: 'a shorter address', received: 'a part longer than any id' },
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: { expected: 'as many bytes as announced', received: 'another number of bytes' },
}

/** Every failure answers `{ issues: [{ path, expected, received }] }`; what went wrong inside is logged, never shown. */
export function answerProblems(app: FastifyInstance, log: (error: unknown) => void): void {
  app.setErrorHandler((error: FastifyError, request, reply) => {
    if (error instanceof Problem) return send(reply, { status: error.statusCode, issues: error.issues })
    const outside = dataProblemOf(error)
    if (outside !== undefined) {
      log(error)
      return send(reply, { status: 503, issues: outside.issues.map((each) => ({ ...each, path: 'data folder' })) })
    }
    if (error.code === 'FST_ERR_CTP_BODY_TOO_LARGE') return send(reply, { status: 413, issues: [tooLarge(request)] })
    const status = error.statusCode ?? 500
    if (status < 400 || status >= 500) {
      log(error)
      const told = { expected: 'the server to answer', received: 'a failure inside it; nothing was changed' }
      return send(reply, { status: 500, issues: [statedIssue('', told)] })
    }
    return send(reply, { status, issues: [statedIssue('', toldOf(error))] })
  })
}

/** The limit is the route's own; a body sent in pieces does not say how large it is. */
function tooLarge({ routeOptions, headers }: FastifyRequest): Issue {
  const announced = Number(headers['content-length'])
  const received = announced > 0 ? `${megabytes(announced)} MB` : 'more'
  return statedIssue('body', { expected: `at most ${megabytes(routeOptions.bodyLimit ?? 0)} MB`, received })
}

const BYTES_PER_MB = 1024 * 1024

/** To a tenth, upwards: what is over a limit reads so. */
const megabytes = (bytes: number): number => Math.ceil((bytes / BYTES_PER_MB) * 10) / 10

function toldOf({ code, statusCode, message }: FastifyError): Told {
  const known =
    KNOWN[code] ?? (statusCode === 400 ? { expected: 'JSON', received: 'text that is not JSON' } : undefined)
  return known ?? { expected: 'a request this server can take', received: message }
}

/** An address no route can be looked up by never reaches the handler of errors: it is answered here, in the same words. */
export function answerBadAddress(error: FastifyError, reply: FastifyReply): void {
  void send(reply, { status: error.statusCode ?? 400, issues: [statedIssue('url', toldOf(error))] })
}

const BROKEN: Readonly<Record<string, Told & { status: number }>> = {
  ERR_HTTP_REQUEST_TIMEOUT: { status: 408, expected: 'a whole request', received: 'one that stopped half-way' },
  HPE_HEADER_OVERFLOW: { status: 431, expected: 'shorter headers', received: 'headers longer than this server reads' },
}
const NO_HTTP = { status: 400, expected: 'a request in HTTP', received: 'bytes that are none' }

/** What is no HTTP at all has no request to answer: the connection gets the answer and is closed. */
export function answerBrokenHttp(error: NodeJS.ErrnoException, socket: Socket): void {
  if (error.code === 'ECONNRESET' || socket.destroyed) return
  const { status, ...told } = BROKEN[error.code ?? ''] ?? NO_HTTP
  const body = JSON.stringify({ issues: [statedIssue('', told)] })
  const head = [
    `HTTP/1.1 ${status} ${STATUS_CODES[status]}`,
    'content-type: application/json; charset=utf-8',
    `content-length: ${Buffer.byteLength(body)}`,
    'connection: close',
  ]
  if (socket.writable) socket.end(`${head.join('\r\n')}\r\n\r\n${body}`, () => socket.destroy())
  else socket.destroy()
}

function send(reply: FastifyReply, { status, issues }: { status: number; issues: readonly Issue[] }): FastifyReply {
  return reply.code(status).type('application/json').send({ issues })
}
