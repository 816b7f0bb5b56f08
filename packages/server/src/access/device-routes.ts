import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { problem } from '../http/problem.ts'
import { accessRefusals, isoOf, moment, reason, role } from './access-schemas.ts'
import { callerOf } from './caller.ts'
import type { EnrolledDevice } from './devices.ts'
import type { AccessRouteOptions } from './access-routes.ts'
import { recordRevocation } from './record-revocation.ts'

const deviceSchema = z.object({
  id: z.string(),
  name: z.string(),
  role,
  enrolled: moment,
  seen: moment,
  revoked: z.object({ at: moment, reason: z.string(), by: z.string() }).optional(),
})

const names = z.array(z.string()).readonly()

/** Who is in, and putting a device out. */
export function deviceRoutes(options: AccessRouteOptions): FastifyPluginAsyncZod {
  const { access, streams } = options
  return async (app) => {
    app.get(
      '/devices',
      {
        schema: {
          summary: 'The devices that were let in, those put out among them',
          tags: ['access'],
          response: { 200: z.object({ devices: z.array(deviceSchema) }), ...accessRefusals },
        },
      },
      async () => ({ devices: access.deviceList().map(shown) }),
    )

    app.post(
      '/devices/:id/revocation',
      {
        schema: {
          summary: 'Puts a device out, now, and writes so into every record it joined',
          description:
            'What it wrote before stays. It does not come back: neither its name nor its key is taken again. `records`: where it stands written now; `left`: where it could not be written yet, to be tried again.',
          tags: ['access'],
          params: z.strictObject({ id: z.string().max(80) }),
          body: z.strictObject({ reason }),
          response: { 200: z.object({ device: z.string(), records: names, left: names }), ...accessRefusals },
        },
      },
      async (request) => {
        const { id } = request.params
        const by = callerOf(request).device?.name ?? 'this machine'
        const device = access.device(id)
        if (device === undefined) throw problem(404, { path: 'id', expected: 'an enrolled device', received: id })
        const isRevoked = access.devices.revoke(id, { reason: request.body.reason, by })
        // asked again where it could not be written the last time, it is tried again
        if (!isRevoked && access.devices.isRecorded(id))
          throw problem(409, { path: 'id', expected: 'a device not revoked yet', received: id })
        access.sessions.endAllOf(id)
        streams.end(id)
        const { written, left } = await recordRevocation(id, options)
        return { device: id, records: written, left }
      },
    )
  }
}

function shown({ id, name, role: itsRole, enrolled, seen, revoked }: EnrolledDevice) {
  return {
    id,
    name,
    role: itsRole,
    enrolled: isoOf(enrolled),
    seen: isoOf(seen),
    ...(revoked === undefined ? {} : { revoked: { at: isoOf(revoked.at), reason: revoked.reason, by: revoked.by } }),
  }
}
