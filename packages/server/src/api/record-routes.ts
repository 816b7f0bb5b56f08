import { instant } from '@rillmark/casebook/entry/fields.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import type { DeviceOf } from '../access/entry-objections.ts'
import { takeFromOutside } from '../access/take-from-outside.ts'
import type { SqliteLedger } from '../ledger/sqlite-ledger.ts'
import type { Records } from '../records/records.ts'
import {
  headSchema,
  investigationParams,
  issueSchema,
  linkSchema,
  problemSchema,
  refusals,
  summarySchema,
} from '../http/schemas.ts'

const BATCH_LIMIT = 500
const PAGE_LIMIT = 2000
const BATCH_BYTES = 16 * 1024 * 1024

const placedSchema = z.object({ id: z.string(), sequence: z.int() })

const pushedSchema = z.strictObject({
  entries: z.array(z.unknown()).min(1).max(BATCH_LIMIT),
  deviceNow: instant.optional().describe('The clock of the device as it sends them'),
  latest: instant
    .optional()
    .describe('The latest instant of all that waits there, by one setting of its clock, beyond this batch'),
})

const appendedSchema = z.object({
  accepted: z.array(placedSchema).readonly().describe('What is in the record now, also as a second account'),
  contested: z
    .array(placedSchema)
    .readonly()
    .describe('Those of them that are second accounts, until a person settles them'),
  refused: z.array(z.object({ id: z.string(), issues: z.array(issueSchema).readonly() })).readonly(),
  head: headSchema,
  serverNow: instant.describe('The clock of the server, to measure one’s own by'),
})

export interface RecordRouteOptions {
  readonly records: Records
  readonly ledger: SqliteLedger
  /** where devices have to come in: the register */
  readonly deviceOf: DeviceOf | undefined
}

/** The record of an investigation: entries in, links out by cursor. */
export function recordRoutes({ records, ledger, deviceOf }: RecordRouteOptions): FastifyPluginAsyncZod {
  const arrived = new WeakMap<object, string>()
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
        // a large batch can take a while to come in: the device's clock was read before it
        onRequest: (request, _reply, done) => {
          arrived.set(request, new Date().toISOString())
          done()
        },
        schema: {
          summary: 'Adds entries; sending the same again is harmless',
          description:
            'Each entry is judged by the state the ones before it left. What is refused comes back with its issues and changes nothing. An entry whose device had not seen (`seen`) what another device wrote, and that only the record speaks against, is kept as a second account; after twenty of these the rest of a batch is left undecided: what comes back neither as accepted nor as refused is sent again. With `deviceNow` the clock of the device is measured, and what was found is kept with each link.',
          tags: ['record'],
          params: investigationParams,
          body: pushedSchema,
          response: { 200: appendedSchema, 413: problemSchema, ...refusals },
        },
      },
      async (request) => {
        const { entries, deviceNow, latest } = request.body
        const serverNow = arrived.get(request) ?? new Date().toISOString()
        const arrival = { deviceNow, serverNow, latest }
        const appended = await takeFromOutside(records, {
          investigation: request.params.id,
          entries,
          arrival,
          deviceOf,
        })
        return { ...appended, serverNow: new Date().toISOString() }
      },
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
      async ({ params: { id }, query }, reply) => {
        const links = ledger.readJson(id, query)
        const text: unknown = `{"links":${links},"head":${JSON.stringify(await ledger.head(id))}}`
        return reply.type('application/json; charset=utf-8').send(text as never)
      },
    )
  }
}
