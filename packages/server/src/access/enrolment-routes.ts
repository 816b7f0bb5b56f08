import type { DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { type Problem, problem } from '../http/problem.ts'
import { accessRefusals, deviceId, deviceName, isoOf, moment, role, whoSchema } from './access-schemas.ts'
import { makerOf } from './caller.ts'
import { deviceKeySchema, isProof, proofSchema } from './device-proof.ts'
import { originOf } from './front.ts'
import type { GuardOptions } from './guard-routes.ts'
import type { Invitation } from './invitations.ts'
import { ENTRANCE_LIMIT, HAND_OUT_LIMIT } from './rate-limits.ts'
import { giveSession } from './session-cookie.ts'

const USUAL_MINUTES = 15
const MOST_MINUTES = 24 * 60
const LONGEST_TOKEN = 200

const enrolmentSchema = z.strictObject({
  token: z.string().max(LONGEST_TOKEN),
  device: deviceId,
  name: deviceName,
  key: deviceKeySchema,
  proof: proofSchema,
})

interface Asked {
  readonly token: string
  readonly device: string
  readonly name: string
  readonly key: DeviceKey
  readonly proof: string
}

/** How a device gets in: a lead invites, the device shows that it holds a key. */
export function enrolmentRoutes({ access, front }: GuardOptions): FastifyPluginAsyncZod {
  return async (app) => {
    app.post(
      '/invitations',
      {
        config: HAND_OUT_LIMIT,
        schema: {
          summary: 'Invites one device, once',
          description:
            'The address is shown as a QR code to the device that is to join. Its token is kept here as a hash only. By its `id` the list of devices tells which one used it.',
          tags: ['access'],
          body: z.strictObject({
            role,
            name: deviceName.optional(),
            minutes: z.int().min(1).max(MOST_MINUTES).default(USUAL_MINUTES),
          }),
          response: {
            200: z.object({ id: z.string(), token: z.string(), url: z.string(), expires: moment }),
            ...accessRefusals,
          },
        },
      },
      async (request) => {
        const { id, token, expires } = access.invitations.make({ ...request.body, ...makerOf(request) })
        return { id, token, url: `${originOf(request, front)}/join#${token}`, expires: isoOf(expires) }
      },
    )

    app.post(
      '/enrolment',
      {
        config: ENTRANCE_LIMIT,
        schema: {
          summary: 'Lets an invited device in, and gives it a session',
          description:
            'The proof is a signature (ECDSA P-256, SHA-256, 64 bytes r and s, base64url) over the canonical JSON (RFC 8785) of `{ token, device, key }`. No time of the device is asked for.',
          tags: ['access'],
          body: enrolmentSchema,
          response: { 200: whoSchema, ...accessRefusals },
        },
      },
      async ({ body }, reply) => {
        const { token, invitation } = enrol(body)
        giveSession(reply, { token, front })
        return { device: body.device, role: invitation.role, name: body.name }
      },
    )
  }

  function enrol({ token, device, name, key, proof }: Asked): { token: string; invitation: Invitation } {
    const invitation = access.invitations.open(token)
    if (invitation === undefined) throw noInvitation()
    if (!isProof({ token, device, key }, { key, proof }))
      throw problem(403, {
        path: 'proof',
        expected: 'a signature of token, device and key by that key',
        received: 'another',
      })
    return access.together(() => {
      if (!access.invitations.use(invitation.id, device)) throw noInvitation()
      const isIn = access.devices.enrol({ id: device, name, role: invitation.role, key, invitedBy: invitation.madeBy })
      if (!isIn)
        throw problem(409, { path: 'device', expected: 'a device and a key not enrolled before', received: device })
      return { token: access.sessions.start(device), invitation }
    })
  }
}

function noInvitation(): Problem {
  return problem(403, {
    path: 'token',
    expected: 'an invitation that was not used and has not ended',
    received: 'another one',
  })
}
