import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import type { FastifyReply } from 'fastify'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import type { Data } from '../data/open-data.ts'
import { DocumentWorker } from '../documents/document-worker.ts'
import { makeDocument } from '../documents/make-document.ts'
import type { DocumentContent, DocumentKind, Made } from '../documents/document-kind.ts'
import { DOCUMENTS } from '../documents/registry.ts'
import { Problem, problem } from '../http/problem.ts'
import { investigationParams } from '../http/schemas.ts'

/** A document may show itself (styles, pictures, the browser's PDF reader) and do nothing else. */
const DOCUMENT_POLICY =
  "default-src 'none'; img-src data:; style-src 'unsafe-inline'; object-src 'self'; frame-ancestors 'self'"

/** Documents made from the record as it stands. */
export function documentRoutes({ records, attachments, folder }: Data): FastifyPluginAsyncZod {
  const worker = new DocumentWorker(folder)
  const sources = {
    links: (id: string) => records.links(id),
    attachment: async (sha256: string) => (await attachments.read(sha256))?.bytes,
    folder,
  }

  async function made(
    name: string,
    { kind, investigation, query }: { kind: DocumentKind; investigation: string; query: unknown },
  ): Promise<Made> {
    if (kind.heavy === true) return worker.make({ name, investigation, query })
    return makeDocument({ kind, investigation, query }, sources)
  }

  return async (app) => {
    app.addHook('onClose', () => worker.close())
    app.get('/documents', { schema: { summary: 'The kinds of documents', tags: ['documents'] } }, async () => ({
      documents: await listed(),
    }))
    app.get(
      '/investigations/:id/documents/:kind',
      {
        schema: {
          summary: 'A document of an investigation',
          tags: ['documents'],
          params: investigationParams.extend({ kind: z.string().max(60) }),
          querystring: z.record(z.string(), z.unknown()),
        },
      },
      async (request, reply) => {
        const { id: investigation, kind: name } = request.params
        const kind = await kindOf(name)
        if ((await records.ledger.head(investigation)).sequence === 0)
          throw problem(404, { path: 'id', expected: 'an investigation kept here', received: investigation })
        const { download, ...asked } = request.query
        const query = queryOf(kind, asked)
        const content = await made(name, { kind, investigation, query })
        if (typeof content === 'object' && 'issues' in content) throw new Problem(422, content.issues)
        const fileName = kind.fileName({ investigation, query })
        return send(reply, {
          kind,
          content,
          disposition: `${download === undefined ? 'inline' : 'attachment'}; filename="${fileName}"`,
        })
      },
    )
  }
}

async function kindOf(name: string): Promise<DocumentKind> {
  const load = Object.hasOwn(DOCUMENTS, name) ? DOCUMENTS[name] : undefined
  if (load === undefined)
    throw problem(404, { path: 'kind', expected: `one of ${Object.keys(DOCUMENTS).join(', ')}`, received: name })
  return load()
}

function queryOf(kind: DocumentKind, asked: Record<string, unknown>): unknown {
  const parsed = parseWith<unknown>(kind.query ?? z.strictObject({}), asked)
  if (!parsed.ok) throw new Problem(400, parsed.issues)
  return parsed.value
}

function send(
  reply: FastifyReply,
  { kind, content, disposition }: { kind: DocumentKind; content: DocumentContent; disposition: string },
): FastifyReply {
  return reply
    .type(kind.contentType)
    .header('content-disposition', disposition)
    .header('content-security-policy', DOCUMENT_POLICY)
    .header('cache-control', 'no-store')
    .send(typeof content === 'string' ? content : Buffer.from(content.buffer, content.byteOffset, content.byteLength))
}

async function listed(): Promise<object[]> {
  return Promise.all(
    Object.entries(DOCUMENTS).map(async ([kind, load]) => {
      const { title, contentType } = await load()
      return { kind, title, contentType }
    }),
  )
}
