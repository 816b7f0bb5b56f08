import type { Ledger } from '@rillmark/casebook/ledger/ledger.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import type { Records } from '../records/records.ts'
import {
  headSchema,
  investigationParams,
  issueSchema,
  linkSchema,
  problemSchema,
  refusals,
  summarySchema,
} from './schemas.ts'

const BATCH_LIMIT = 500
const PAGE_LIMIT = 2000
const BATCH_BYTES = 16 * 1024 * 1024

const appendedSchema = z.object({
  accepted: z.array(z.object({ id: z.string(), sequence: z.int() })).readonly(),
  refused: z.array(z.object({ id: z.string(), issues: z.array(issueSchema).readonly() })).readonly(),
  head: headSchema,
})

/** The record of an investigation: entries in, links out by cursor. */
export function recordRoutes({ records, ledger }: { records: Records; ledger: Ledger }): FastifyPluginAsyncZod {
  return async (app) => {
    app.get(
      '/investigations',
      {
        schema: {
          summary: 'All investigations, with head and counts',
          tags: ['record'],
          response: { 200: z.object({ investigations: z.array(summarySchema) }) },
        },
      },
      async () => ({ investigations: await records.summaries() }),
    )

    app.post(
      '/investigations/:id/entries',
      {
        bodyLimit: BATCH_BYTES,
        schema: {
          summary: 'Adds entries; sending the same again is harmless',
          description:
            'Each entry is judged by the state the ones before it left. What is refused comes back with its issues and changes nothing.',
          tags: ['record'],
          params: investigationParams,
          body: z.strictObject({ entries: z.array(z.unknown()).min(1).max(BATCH_LIMIT) }),
          response: { 200: appendedSchema, 413: problemSchema, ...refusals },
        },
      },
      (request) => records.append(request.params.id, request.body.entries),
    )

    app.get(
      '/investigations/:id/entries',
      {
        schema: {
          summary: 'Links after a cursor, in order',
          tags: ['record'],
          params: investigationParams,
          querystring: z.strictObject({
            after: z.coerce.number().int().min(0).default(0),
            limit: z.coerce.number().int().min(1).max(PAGE_LIMIT).default(PAGE_LIMIT),
          }),
          response: { 200: z.object({ links: z.array(linkSchema), head: headSchema }), ...refusals },
        },
      },
      async ({ params: { id }, query }) => ({ links: await ledger.read(id, query), head: await ledger.head(id) }),
    )
  }
}
