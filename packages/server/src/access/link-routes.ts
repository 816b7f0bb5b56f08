import { code } from '@rillmark/casebook/entry/fields.ts'
import { lastLaboratoryLink } from '@rillmark/casebook/devices/server-names.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { type Problem, problem } from '../http/problem.ts'
import { investigationParams } from '../http/schemas.ts'
import { accessRefusals, isoOf, linkParams, moment } from './access-schemas.ts'
import type { AccessRouteOptions } from './access-routes.ts'
import { makerOf } from './caller.ts'
import type { ConsignmentLink } from './consignment-links.ts'
import { originOf } from './front.ts'
import { HAND_OUT_LIMIT } from './rate-limits.ts'

const USUAL_DAYS = 14
const MOST_DAYS = 60

const linkSchema = z.object({
  link: z.int(),
  consignment: z.string(),
  made: moment,
  by: z.string(),
  expires: moment,
  received: z.string().optional(),
  revoked: moment.optional(),
})

/** Ways in for laboratories, each to one consignment. */
export function linkRoutes({ access, front, records }: AccessRouteOptions): FastifyPluginAsyncZod {
  return async (app) => {
    app.post(
      '/investigations/:id/consignment-links',
      {
        config: HAND_OUT_LIMIT,
        schema: {
          summary: 'Makes a link by which a laboratory sees one consignment and writes its receipt, once',
          tags: ['custody'],
          params: investigationParams,
          body: z.strictObject({ consignment: code, days: z.int().min(1).max(MOST_DAYS).default(USUAL_DAYS) }),
          response: { 200: z.object({ url: z.string(), link: z.int(), expires: moment }), ...accessRefusals },
        },
      },
      async (request) => {
        const { id: investigation } = request.params
        const { consignment, days } = request.body
        if ((await records.ledger.head(investigation)).sequence === 0) throw noInvestigation(investigation)
        const { state } = await records.state(investigation)
        refuseUnlessOnItsWay(state, consignment)
        // the register may be younger than the record: a name a laboratory wrote under is not given again
        const above = lastLaboratoryLink(state.devices)
        const { token, link } = access.links.make({ investigation, consignment, days, above, ...makerOf(request) })
        return { url: `${originOf(request, front)}/receipt#${token}`, link: link.number, expires: isoOf(link.expires) }
      },
    )

    app.get(
      '/investigations/:id/consignment-links',
      {
        schema: {
          summary: 'The links made for laboratories; what opens them is told once, when they are made',
          tags: ['custody'],
          params: investigationParams,
          response: { 200: z.object({ links: z.array(linkSchema) }), ...accessRefusals },
        },
      },
      async ({ params: { id } }) => {
        if ((await records.ledger.head(id)).sequence === 0) throw noInvestigation(id)
        return { links: access.linksOf(id).map(shown) }
      },
    )

    app.post(
      '/investigations/:id/consignment-links/:link/revocation',
      {
        schema: {
          summary: 'Ends a link now',
          tags: ['custody'],
          params: linkParams,
          body: z.strictObject({}).nullish(),
          response: { 200: z.object({ link: z.int() }), ...accessRefusals },
        },
      },
      async ({ params: { id, link } }) => {
        const known = access.linksOf(id).some(({ number }) => number === link)
        if (!known || !access.links.revoke(link, id))
          throw problem(404, {
            path: 'link',
            expected: 'a link of this investigation, not yet ended',
            received: `${link}`,
          })
        return { link }
      },
    )
  }
}

function refuseUnlessOnItsWay({ custody }: InvestigationState, consignment: string): void {
  const box = custody.consignments.get(consignment)
  if (box === undefined)
    throw problem(422, { path: 'consignment', expected: 'an opened consignment', received: consignment })
  if (box.received !== undefined)
    throw problem(422, { path: 'consignment', expected: 'one not yet received', received: consignment })
}

function noInvestigation(id: string): Problem {
  return problem(404, { path: 'id', expected: 'an investigation kept here', received: id })
}

function shown({ number, consignment, made, madeBy, expires, received, revoked }: ConsignmentLink) {
  return {
    link: number,
    consignment,
    made: isoOf(made),
    by: madeBy,
    expires: isoOf(expires),
    ...(received === undefined ? {} : { received }),
    ...(revoked === undefined ? {} : { revoked: isoOf(revoked) }),
  }
}
