import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { callerOf } from '../access/caller.ts'
import type { Front } from '../access/front.ts'
import { loadDemo } from '../records/demo.ts'
import type { Records } from '../records/records.ts'
import { problem } from '../http/problem.ts'
import { problemSchema, refusals } from '../http/schemas.ts'

/** Health, the worked example, and the API's description of itself. */
export function serviceRoutes({ records, front }: { records: Records; front: Front }): FastifyPluginAsyncZod {
  return async (app) => {
    app.get(
      '/health',
      {
        schema: {
          summary:
            'Whether the server and its ledger answer; how many investigations it has is told to those who are in',
          tags: ['service'],
          response: { 200: z.object({ ok: z.literal(true), investigations: z.int().optional() }) },
        },
      },
      async (request) => {
        const isIn = front.kind === 'open' || callerOf(request).device !== undefined
        if (isIn) return { ok: true as const, investigations: (await records.ledger.investigations()).length }
        // anyone may ask, as often as they like: one look into the index, whatever is kept
        await records.ledger.head('health')
        return { ok: true as const }
      },
    )
    app.post(
      '/demo',
      {
        schema: {
          summary: 'Loads the worked example',
          tags: ['service'],
          body: z.strictObject({}).nullish(),
          response: { 200: z.object({ id: z.string() }), 409: problemSchema, ...refusals },
        },
      },
      async () => {
        const loaded = await loadDemo(records)
        if (loaded !== undefined && 'taken' in loaded)
          throw problem(409, { expected: 'no other investigation of this name', received: loaded.taken })
        if (loaded === undefined)
          throw problem(404, {
            expected: 'the worked example beside the program',
            received: 'an installation without it',
          })
        return loaded
      },
    )
    app.get('/openapi.json', { schema: { hide: true } }, async () => app.swagger())
  }
}
