import { ATTACHMENT_LIMIT_BYTES, ATTACHMENT_TYPES } from '@rillmark/exchange/package/media-type.ts'
import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { PIECE_LIMIT_BYTES, type PieceOutcome, type Pieces } from '../attachments/pieces.ts'
import { type Problem, problem } from '../http/problem.ts'
import { attachmentParams, issueSchema, problemSchema, refusals } from '../http/schemas.ts'

const received = z.object({ received: z.int(), whole: z.boolean() })
const OCTETS = 'application/octet-stream'

/** Pictures that come in pieces, so that a cut costs a piece and not the picture. */
export function pieceRoutes({ pieces }: { pieces: Pieces }): FastifyPluginAsyncZod {
  return async (app) => {
    app.addContentTypeParser(OCTETS, { parseAs: 'buffer', bodyLimit: PIECE_LIMIT_BYTES }, (_request, body, done) =>
      done(null, body),
    )

    app.get(
      '/attachments/:sha256/pieces',
      {
        schema: {
          summary: 'How much of a picture is here: where its next piece starts',
          tags: ['attachments'],
          params: attachmentParams,
          response: { 200: received, ...refusals },
        },
      },
      (request) => pieces.received(request.params.sha256),
    )

    app.put(
      '/attachments/:sha256/pieces',
      {
        bodyLimit: PIECE_LIMIT_BYTES,
        schema: {
          summary: 'Adds a piece to a picture; sending it again is harmless',
          description:
            'A piece that does not start where the one before it ended is answered with 409 and where to go on. With the last piece the hash of the whole is checked; where it is wrong everything is thrown away.',
          tags: ['attachments'],
          consumes: [OCTETS],
          params: attachmentParams,
          querystring: z.strictObject({
            from: z.coerce.number().int().min(0),
            of: z.coerce.number().int().min(1).max(ATTACHMENT_LIMIT_BYTES),
          }),
          response: {
            200: received,
            409: received.extend({ issues: z.array(issueSchema) }),
            413: problemSchema,
            415: problemSchema,
            507: problemSchema,
            ...refusals,
          },
        },
      },
      async (request, reply) => {
        const { sha256 } = request.params
        const { from, of } = request.query
        const bytes: unknown = request.body
        if (!(bytes instanceof Uint8Array) || bytes.length === 0)
          throw problem(400, { path: 'body', expected: 'bytes of a picture', received: undefined })
        const outcome = await pieces.put({ sha256, from, of, bytes })
        if (outcome.kind === 'kept') return { received: outcome.received, whole: outcome.whole }
        if (outcome.kind !== 'out of place') throw refused(outcome.kind)
        const issue = statedIssue('from', { expected: String(outcome.received), received: String(from) })
        return reply.code(409).send({ received: outcome.received, whole: outcome.whole, issues: [issue] })
      },
    )
  }
}

type Trouble = Exclude<PieceOutcome['kind'], 'kept' | 'out of place'>

const TROUBLE: Readonly<Record<Trouble, { status: number; path: string; expected: string; received: string }>> = {
  'too long': { status: 400, path: 'of', expected: 'as many bytes as the picture has', received: 'fewer' },
  'no picture': {
    status: 415,
    path: 'body',
    expected: ATTACHMENT_TYPES.join(', '),
    received: 'bytes of no such picture',
  },
  'other bytes': { status: 422, path: 'sha256', expected: 'the SHA-256 of the bytes', received: 'another' },
  'disk nearly full': {
    status: 507,
    path: 'data folder',
    expected: 'room on the disk',
    received: 'a disk that is nearly full',
  },
  'too many unfinished': {
    status: 507,
    path: 'data folder',
    expected: 'fewer pictures under way',
    received: 'as many as are let in at once: try later',
  },
}

function refused(kind: Trouble): Problem {
  const { status, ...told } = TROUBLE[kind]
  return problem(status, told)
}
