import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { accessRefusals, whoSchema } from './access-schemas.ts'
import type { AccessRouteOptions } from './access-routes.ts'
import { callerOf } from './caller.ts'
import type { EnrolledDevice } from './devices.ts'
import { takeSession } from './session-cookie.ts'

/** What a device may know of its own session, and how it ends it. */
export function ownSessionRoutes({ access, front, streams }: AccessRouteOptions): FastifyPluginAsyncZod {
  return async (app) => {
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

export function whoOf({ id, role, name }: EnrolledDevice) {
  return { device: id, role, name }
}
