import {
  ATTACHMENT_LIMIT_BYTES,
  ATTACHMENT_TYPES,
  type AttachmentType,
  mediaTypeOf,
} from '@rillmark/exchange/package/media-type.ts'
import type { FastifyRequest } from 'fastify'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import type { Attachments } from '../attachments/attachments.ts'
import type { Room } from '../folder/room.ts'
import { problem } from '../http/problem.ts'
import { attachmentParams, problemSchema, refusals } from '../http/schemas.ts'

/** Pictures by the hash of their bytes. */
export function attachmentRoutes({
  attachments,
  room,
}: {
  attachments: Attachments
  room: Room
}): FastifyPluginAsyncZod {
  return async (app) => {
    app.addContentTypeParser(
      [...ATTACHMENT_TYPES],
      { parseAs: 'buffer', bodyLimit: ATTACHMENT_LIMIT_BYTES },
      (_request, body, done) => done(null, body),
    )

    app.put(
      '/attachments/:sha256',
      {
        bodyLimit: ATTACHMENT_LIMIT_BYTES,
        schema: {
          summary: 'Keeps a picture under the hash of its bytes',
          tags: ['attachments'],
          consumes: [...ATTACHMENT_TYPES],
          params: attachmentParams,
          response: {
            200: z.object({ sha256: z.string(), bytes: z.int(), mediaType: z.string() }),
            413: problemSchema,
            415: problemSchema,
            507: problemSchema,
            ...refusals,
          },
        },
      },
      async (request) => {
        const { sha256 } = request.params
        const { body, mediaType } = pictureIn(request)
        if (!(await room.takes(body.length)))
          throw problem(507, {
            path: 'data folder',
            expected: 'room on the disk',
            received: 'a disk that is nearly full',
          })
        if (!(await attachments.put(sha256, body)))
          throw problem(422, { path: 'sha256', expected: 'the SHA-256 of the bytes', received: sha256 })
        return { sha256, bytes: body.length, mediaType }
      },
    )

    app.get(
      '/attachments/:sha256',
      { schema: { summary: 'A picture', tags: ['attachments'], params: attachmentParams } },
      async (request, reply) => {
        const { sha256 } = request.params
        const found = await attachments.read(sha256)
        if (found === undefined)
          throw problem(404, { path: 'sha256', expected: 'an attachment that is kept here', received: sha256 })
        return reply
          .type(found.mediaType)
          .header('cache-control', 'private, max-age=31536000, immutable')
          .send(Buffer.from(found.bytes))
      },
    )
  }
}

function pictureIn({ body, headers }: FastifyRequest): { body: Uint8Array; mediaType: AttachmentType } {
  if (!(body instanceof Uint8Array) || body.length === 0)
    throw problem(400, { expected: 'the bytes of a picture', received: undefined })
  const mediaType = mediaTypeOf(body)
  if (mediaType === undefined || mediaType !== headers['content-type'])
    throw problem(415, { expected: ATTACHMENT_TYPES.join(', '), received: mediaType ?? 'bytes of no such picture' })
  return { body, mediaType }
}
