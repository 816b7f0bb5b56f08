import { receiptBodySchema, receiptForm } from '@rillmark/casebook/custody/receipt-form.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { type Problem, problem } from '../http/problem.ts'
import { Queues } from '../folder/queues.ts'
import { accessRefusals, isoOf, moment } from './access-schemas.ts'
import type { AccessRouteOptions } from './access-routes.ts'
import { callerOf } from './caller.ts'
import type { ConsignmentLink } from './consignment-links.ts'
import { HAND_OUT_LIMIT } from './rate-limits.ts'
import { writeReceipt } from './write-receipt.ts'

const formSchema = z
  .looseObject({ consignment: z.string(), expires: moment })
  .describe('The consignment as its laboratory sees it: nothing of cases, places or other consignments')

/** What the holder of a consignment link may do: see that consignment, and write its receipt, once. */
export function receiptRoutes(options: AccessRouteOptions): FastifyPluginAsyncZod {
  const { records } = options
  const queues = new Queues()
  return async (app) => {
    app.get(
      '/receipt',
      {
        config: HAND_OUT_LIMIT,
        schema: {
          summary: 'The consignment of a link, to be received',
          tags: ['custody'],
          response: { 200: formSchema, ...accessRefusals },
        },
      },
      async (request) => {
        const { investigation, consignment, expires } = linkOf(callerOf(request).link)
        const { state } = await records.state(investigation)
        const form = receiptForm(state, consignment)
        if (form === undefined) throw gone(consignment)
        return { ...form, expires: isoOf(expires) }
      },
    )

    app.post(
      '/receipt',
      {
        config: HAND_OUT_LIMIT,
        schema: {
          summary: 'Writes the receipt of a consignment into its record, once; sending the same again is harmless',
          description: 'The device is `laboratory-link-N`; the entry is signed with the server’s key.',
          tags: ['custody'],
          body: receiptBodySchema,
          response: {
            200: z.object({ received: z.object({ entry: z.string(), sequence: z.int() }) }),
            ...accessRefusals,
          },
        },
      },
      async (request) => {
        const link = linkOf(callerOf(request).link)
        return queues.run(String(link.number), () => writeReceipt(link, { body: request.body, ...options }))
      },
    )
  }
}

function linkOf(link: ConsignmentLink | undefined): ConsignmentLink {
  if (link === undefined) throw new Error('Cannot answer because no consignment link came with the request')
  return link
}

function gone(consignment: string): Problem {
  return problem(404, { path: 'consignment', expected: 'a consignment of its investigation', received: consignment })
}
