import { createHash } from 'node:crypto'
import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import { receiptBodySchema, type ReceiptBody, receiptForm } from '@rillmark/casebook/custody/receipt-form.ts'
import { laboratoryDevice } from '@rillmark/casebook/devices/server-names.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { Problem, problem } from '../api/problems.ts'
import { Queues } from '../records/queues.ts'
import { accessRefusals, isoOf, moment } from './access-schemas.ts'
import type { AccessRouteOptions } from './access-routes.ts'
import { callerOf } from './caller.ts'
import type { ConsignmentLink } from './consignment-links.ts'
import { HAND_OUT_LIMIT } from './rate-limits.ts'
import { writeSigned } from './signed-writing.ts'

const formSchema = z
  .looseObject({ consignment: z.string(), expires: moment })
  .describe('The consignment as its laboratory sees it: nothing of cases, places or other consignments')

/** What the holder of a consignment link may do: see that consignment, and write its receipt, once. */
export function receiptRoutes({ access, records, key }: AccessRouteOptions): FastifyPluginAsyncZod {
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
        return queues.run(String(link.number), () => receive(link, request.body))
      },
    )
  }

  async function receive(link: ConsignmentLink, body: ReceiptBody) {
    const { investigation, consignment, number } = link
    const before = await writtenBefore(link, body)
    if (before !== undefined) return { received: before }
    const { state } = await records.state(investigation)
    if (state.custody.consignments.get(consignment)?.received !== undefined)
      throw problem(409, { path: 'received', expected: 'a consignment not yet received', received: consignment })
    const id = entryIdOf(link)
    const hand = {
      device: laboratoryDevice(number),
      role: 'laboratory',
      name: body.laboratory,
      author: body.receivedBy.name,
      key: key(),
    } as const
    const proposal = { kind: 'consignment.received', body: { ...body, consignment } } as const
    const outcome = await writeSigned(records, { investigation, hand, nowMs: access.now(), proposal, id })
    const written = outcome.accepted.find((each) => each.id === id)
    if (written === undefined)
      throw new Problem(
        422,
        outcome.refused.flatMap(({ issues }) => issues),
      )
    access.links.setReceived(number, id)
    return { received: { entry: id, sequence: written.sequence } }
  }

  /** Where this very receipt stands already: the answer to it was lost on its way. */
  async function writtenBefore(link: ConsignmentLink, body: ReceiptBody) {
    const { investigation, consignment, number } = link
    const id = entryIdOf(link)
    const sequence = (await records.ledger.sequencesOf(investigation, [id])).get(id)
    if (sequence === undefined) return undefined
    const [found] = await records.ledger.read(investigation, { after: sequence - 1, limit: 1 })
    if (canonicalJson(found?.entry.body) !== canonicalJson({ ...body, consignment })) return undefined
    access.links.setReceived(number, id)
    return { entry: id, sequence }
  }
}

/** The id of a link's one receipt follows from the link, so that no second one can be written (version 8 of RFC 9562). */
function entryIdOf({ investigation, number, made }: ConsignmentLink): string {
  const hex = createHash('sha256').update(`receipt/${investigation}/${number}/${made}`).digest('hex')
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-8${hex.slice(17, 20)}-${hex.slice(20, 32)}`
}

function linkOf(link: ConsignmentLink | undefined): ConsignmentLink {
  if (link === undefined) throw new Error('Cannot answer because no consignment link came with the request')
  return link
}

function gone(consignment: string): Problem {
  return problem(404, { path: 'consignment', expected: 'a consignment of its investigation', received: consignment })
}
