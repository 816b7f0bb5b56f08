import { type Issue, statedIssue } from '@rillmark/casebook/entry/issue.ts'
import type { FastifyError, FastifyInstance, FastifyReply } from 'fastify'

/** Something wrong with a request, to be told with a status and issues. */
export class Problem extends Error {
  override readonly name = 'Problem'
  readonly statusCode: number
  readonly issues: readonly Issue[]

  constructor(statusCode: number, issues: readonly Issue[]) {
    super(issues.map(({ path, expected }) => `${path}: expected ${expected}`).join('; '))
    this.statusCode = statusCode
    this.issues = issues
  }
}

export function problem(
  statusCode: number,
  { path = '', expected, received }: { path?: string; expected: string; received: string | undefined },
): Problem {
  return new Problem(statusCode, [statedIssue(path, { expected, received })])
}

/** What Fastify itself refuses, in the same words as everything else. */
const KNOWN: Readonly<Record<string, { expected: string; received: string }>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: { expected: 'a smaller body', received: 'more bytes than this route takes' },
  FST_ERR_CTP_INVALID_MEDIA_TYPE: { expected: 'a body of a type this route takes', received: 'another content type' },
  FST_ERR_CTP_EMPTY_JSON_BODY: { expected: 'JSON', received: 'an empty body' },
  FST_ERR_CTP_INVALID_JSON_BODY: { expected: 'JSON', received: 'text that is not JSON' },
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: { expected: 'as many bytes as announced', received: 'another number of bytes' },
}

/** Every failure answers `{ issues: [{ path, expected, received }] }`; what went wrong inside is logged, never shown. */
export function answerProblems(app: FastifyInstance, log: (error: unknown) => void): void {
  app.setErrorHandler((error: FastifyError, _request, reply) => {
    if (error instanceof Problem) return send(reply, { status: error.statusCode, issues: error.issues })
    const status = error.statusCode ?? 500
    if (status < 400 || status >= 500) {
      log(error)
      const told = { expected: 'the server to answer', received: 'a failure inside it; nothing was changed' }
      return send(reply, { status: 500, issues: [statedIssue('', told)] })
    }
    const known =
      KNOWN[error.code] ?? (status === 400 ? { expected: 'JSON', received: 'text that is not JSON' } : undefined)
    const told = known ?? { expected: 'a request this server can take', received: error.message }
    return send(reply, { status, issues: [statedIssue('', told)] })
  })
}

function send(reply: FastifyReply, { status, issues }: { status: number; issues: readonly Issue[] }): FastifyReply {
  return reply.code(status).type('application/json').send({ issues })
}
