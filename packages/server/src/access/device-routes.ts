import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { problem } from '../http/problem.ts'
import { accessRefusals, isoOf, moment, reason, role } from './access-schemas.ts'
import { makerOf } from './caller.ts'
import type { EnrolledDevice, Revoked } from './devices.ts'
import type { AccessRouteOptions } from './access-routes.ts'
import { recordRevocation } from './record-revocation.ts'

const deviceSchema = z.object({
  id: z.string(),
  name: z.string(),
  role,
  enrolled: moment,
  seen: moment,
  invitation: z.string().optional().describe('id of the invitation it came in by'),
  links: z.int().describe('consignment links it made that still take a receipt'),
  revoked: z
    .object({ at: moment, reason: z.string(), by: z.string(), device: z.string().optional() })
    .optional()
    .describe('`by`: what whoever did it calls itself; `device`: the device it was done on, if any'),
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
      async () => ({
        devices: access.deviceList().map((device) => ({ ...shown(device), links: access.links.openOf(device) })),
      }),
    )

    app.post(
      '/devices/:id/revocation',
      {
        schema: {
          summary: 'Puts a device out, now, and writes so into every record it joined',
          description:
            'What it wrote before stays. It does not come back: neither its name nor its key is taken again. Invitations it made let nobody in any more; consignment links it made stay unless `endLinks` is asked for, and `endedLinks` counts those that were ended. `records`: where it stands written now; `left`: where it could not be written yet, to be tried again.',
          tags: ['access'],
          params: z.strictObject({ id: z.string().max(80) }),
          body: z.strictObject({ reason, endLinks: z.boolean().default(false) }),
          response: {
            200: z.object({ device: z.string(), records: names, left: names, endedLinks: z.int() }),
            ...accessRefusals,
          },
        },
      },
      async (request) => {
        const { id } = request.params
        const device = access.device(id)
        if (device === undefined) throw problem(404, { path: 'id', expected: 'an enrolled device', received: id })
        const endedLinks = access.together(() => putOut(device, { ...request.body, ...makerOf(request) }))
        streams.end(id)
        const { written, left } = await recordRevocation(id, options)
        return { device: id, records: written, left, endedLinks }
      },
    )
  }

  /** All it could come in by, or let others in by, ends with it. How many consignment links were ended. */
  function putOut(
    device: EnrolledDevice,
    asked: { reason: string; endLinks: boolean; by: string; maker: string | undefined },
  ): number {
    const { id } = device
    const { reason: why, endLinks, by, maker } = asked
    const isRevoked = access.devices.revoke(id, { reason: why, by, device: maker })
    // asked again where it could not be written the last time, it is tried again
    if (!isRevoked && access.devices.isRecorded(id))
      throw problem(409, { path: 'id', expected: 'a device not revoked yet', received: id })
    access.sessions.endAllOf(id)
    access.invitations.voidThoseOf(device)
    return endLinks ? access.links.endThoseOf(device) : 0
  }
}

function shown({ id, name, role: itsRole, enrolled, seen, revoked, invitation }: EnrolledDevice) {
  return {
    id,
    name,
    role: itsRole,
    enrolled: isoOf(enrolled),
    seen: isoOf(seen),
    ...(invitation === undefined ? {} : { invitation }),
    ...(revoked === undefined ? {} : { revoked: revokedShown(revoked) }),
  }
}

function revokedShown({ at, reason: why, by, device }: Revoked) {
  return { at: isoOf(at), reason: why, by, ...(device === undefined ? {} : { device }) }
}
