import { readPackage } from '@rillmark/exchange/package/read-package.ts'
import { ZIP_LIMITS } from '@rillmark/exchange/package/zip-directory.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { type RevocationOptions, recordRevocationsIn } from '../access/record-revocation.ts'
import type { Attachments } from '../attachments/attachments.ts'
import { quickSignatureCheck } from '../devices/check-signature.ts'
import type { Room } from '../folder/room.ts'
import { importPackage } from '../records/import-package.ts'
import { Problem, problem } from '../http/problem.ts'
import { headSchema, problemSchema, refusals } from '../http/schemas.ts'

const ZIP_TYPES = ['application/zip', 'application/octet-stream', 'application/x-zip-compressed']

/** Takes an open package in: verified whole before anything of it is kept. */
export function packageRoutes({
  attachments,
  room,
  ...options
}: RevocationOptions & { attachments: Attachments; room: Room }): FastifyPluginAsyncZod {
  const { records } = options
  return async (app) => {
    app.addContentTypeParser(
      ZIP_TYPES,
      { parseAs: 'buffer', bodyLimit: ZIP_LIMITS.archiveBytes },
      (_request, body, done) => done(null, body),
    )
    app.post(
      '/investigations/import',
      {
        bodyLimit: ZIP_LIMITS.archiveBytes,
        schema: {
          summary: 'Imports an open package (ZIP)',
          tags: ['record'],
          consumes: ['application/zip'],
          response: {
            200: z.object({ id: z.string(), added: z.int(), head: headSchema }),
            409: problemSchema,
            413: problemSchema,
            415: problemSchema,
            507: problemSchema,
            ...refusals,
          },
        },
      },
      async (request) => {
        const body: unknown = request.body
        if (!(body instanceof Uint8Array))
          throw problem(415, { expected: 'a ZIP archive', received: request.headers['content-type'] })
        const read = readPackage(body, { checkSignature: quickSignatureCheck() })
        if (!read.ok) throw new Problem(422, read.issues)
        const imported = await importPackage(read.value, { records, attachments, room })
        if (!imported.ok) throw new Problem(imported.why === 'another story' ? 409 : 507, imported.issues)
        const { investigation } = read.value.manifest
        const isTold = await recordRevocationsIn(investigation, options)
        const head = isTold ? await records.ledger.head(investigation) : imported.head
        return { id: investigation, added: imported.added, head }
      },
    )
  }
}
