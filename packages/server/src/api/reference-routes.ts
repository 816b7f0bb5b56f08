import { CRITERIA_SETS } from '@rillmark/casebook/criteria/criteria-sets.ts'
import { PROCEDURES } from '@rillmark/casebook/procedures/procedures.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'

/** The versioned reference data the app works by, with its sources. */
export const referenceRoutes: FastifyPluginAsyncZod = async (app) => {
  app.get('/reference/procedures', { schema: { summary: 'Sampling procedures', tags: ['reference'] } }, async () => ({
    procedures: PROCEDURES,
  }))
  app.get(
    '/reference/criteria',
    { schema: { summary: 'Criteria sets by jurisdiction', tags: ['reference'] } },
    async () => ({ criteria: CRITERIA_SETS }),
  )
}
