import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { problem } from '../api/problems.ts'
import { accessRefusals, deviceId, isoOf, moment, whoSchema } from './access-schemas.ts'
import { callerOf } from './caller.ts'
import { isProof, proofSchema } from './device-proof.ts'
import type { EnrolledDevice } from './devices.ts'
import type { AccessRouteOptions } from './access-routes.ts'
import { SESSION_LIMIT } from './rate-limits.ts'
import { giveSession, takeSession } from './session-cookie.ts'

const LONGEST_NONCE = 64

/** How an enrolled device comes back: it signs a number the server just made up. Nobody has to type or remember anything. */
export function sessionRoutes({ access, front, streams }: AccessRouteOptions): FastifyPluginAsyncZod {
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

    app.get(
      '/session',
      {
        schema: {
          summary: 'Whose session this is; or that this server stands open to its own machine',
          tags: ['access'],
          response: { 200: z.union([whoSchema, z.object({ open: z.literal(true) })]), ...accessRefusals },
        },
      },
      async (request) => {
        const { device } = callerOf(request)
        return device === undefined ? { open: true as const } : whoOf(device)
      },
    )

    app.delete(
      '/session',
      {
        schema: {
          summary: 'Ends the session, if there is one',
          tags: ['access'],
          body: z.strictObject({}).nullish(),
          response: { 200: z.object({ ended: z.literal(true) }), ...accessRefusals },
        },
      },
      async (request, reply) => {
        const { session } = callerOf(request)
        if (session !== undefined) {
          access.sessions.end(session.id)
          streams.end(session.device)
        }
        takeSession(reply, front)
        return { ended: true as const }
      },
    )
  }
}

function whoOf({ id, role, name }: EnrolledDevice) {
  return { device: id, role, name }
}
