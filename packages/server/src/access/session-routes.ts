import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { problem } from '../http/problem.ts'
import { accessRefusals, deviceId, isoOf, moment, whoSchema } from './access-schemas.ts'
import { callerOf } from './caller.ts'
import { isProof, proofSchema } from './device-proof.ts'
import type { AccessRouteOptions } from './access-routes.ts'
import { SESSION_LIMIT } from './rate-limits.ts'
import { whoOf } from './own-session-routes.ts'
import { giveSession } from './session-cookie.ts'

const LONGEST_NONCE = 64

/** How an enrolled device comes back: it signs a number the server just made up. Nobody has to type or remember anything. */
export function sessionRoutes({ access, front }: AccessRouteOptions): FastifyPluginAsyncZod {
  return async (app) => {
    app.post(
      '/session/challenge',
      {
        config: SESSION_LIMIT,
        schema: {
          summary: 'A number for a device to sign, good for two minutes and one try',
          tags: ['access'],
          body: z.strictObject({ device: deviceId }),
          response: { 200: z.object({ nonce: z.string(), expires: moment }), ...accessRefusals },
        },
      },
      async ({ body }) => {
        const { nonce, expires } = access.challenges.make(body.device)
        return { nonce, expires: isoOf(expires) }
      },
    )

    app.post(
      '/session',
      {
        config: SESSION_LIMIT,
        schema: {
          summary: 'Starts a session',
          description: 'The proof is a signature, as at enrolment, over the canonical JSON of `{ device, nonce }`.',
          tags: ['access'],
          body: z.strictObject({ device: deviceId, nonce: z.string().max(LONGEST_NONCE), proof: proofSchema }),
          response: { 200: whoSchema, ...accessRefusals },
        },
      },
      async (request, reply) => {
        const { device: id, nonce, proof } = request.body
        const isFresh = access.challenges.use(nonce, id)
        const device = isFresh ? access.device(id) : undefined
        const isIn = device !== undefined && device.revoked === undefined
        if (!isIn || !isProof({ device: id, nonce }, { key: device.key, proof }))
          throw problem(401, {
            path: 'proof',
            expected: 'a fresh number signed by the key of an enrolled device',
            received: 'another',
          })
        const old = callerOf(request).session
        if (old !== undefined) access.sessions.end(old.id)
        giveSession(reply, { token: access.sessions.start(id), front })
        return whoOf(device)
      },
    )
  }
}
