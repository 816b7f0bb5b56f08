import { createHash, type Hash } from 'node:crypto'
import { pipeline, Transform } from 'node:stream'
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { type Problem, problem } from '../http/problem.ts'
import type { Access } from './access.ts'
import { callerOf } from './caller.ts'
import { isProof } from './device-proof.ts'
import type { EnrolledDevice } from './devices.ts'
import { isProved } from './route-table.ts'

/** What the server answers when it wants a proof: the number to be signed. */
const CHALLENGE = 'rillmark-challenge'
/** What the device sends then: that number, a dot, the signature. */
export const PROOF = 'rillmark-proof'
const PROOF_SHAPE = /^(?<nonce>[A-Za-z0-9_-]{1,64})\.(?<proof>[A-Za-z0-9_-]{86})$/

/**
 * What gives power to others or takes it, or writes by the server's hand, is done by whoever holds the key of a device, not by whoever holds
 * its session: the device signs this very request, with a number made for it. Where nobody has to come in, nothing is asked.
 */
export function guardProof(app: FastifyInstance, access: Access): void {
  const bodies = new WeakMap<FastifyRequest, Hash>()
  // after the guard of routes, which says whose session it is; the body is hashed as it comes, exactly as it was sent
  app.addHook('preParsing', async (request, reply, payload) => {
    const device = actingDevice(request)
    if (device === undefined) return payload
    if (request.headers[PROOF] === undefined) throw wanted(reply, { access, device })
    const hash = createHash('sha256')
    bodies.set(request, hash)
    const passing = new Transform({
      transform: (chunk: Uint8Array, _encoding, next) => {
        hash.update(chunk)
        next(null, chunk)
      },
    })
    // one that ends early ends the other: the parser of the body is told
    pipeline(payload, passing, () => undefined)
    return passing
  })
  app.addHook('preValidation', async (request, reply) => {
    const device = actingDevice(request)
    if (device === undefined) return
    const body = bodies.get(request)?.digest('hex') ?? createHash('sha256').digest('hex')
    const { nonce = '', proof = '' } = PROOF_SHAPE.exec(String(request.headers[PROOF]))?.groups ?? {}
    const statement = { device: device.id, nonce, method: request.method, path: request.url, body }
    if (!access.challenges.use(nonce, device.id) || !isProof(statement, { key: device.key, proof }))
      throw wanted(reply, { access, device })
  })
}

/** The device that has to prove itself for what it asks. */
function actingDevice(request: FastifyRequest): EnrolledDevice | undefined {
  return isProved(request.method, request.routeOptions.url ?? '') ? callerOf(request).device : undefined
}

function wanted(reply: FastifyReply, { access, device }: { access: Access; device: EnrolledDevice }): Problem {
  const { nonce } = access.challenges.make(device.id)
  reply.header(CHALLENGE, nonce)
  return problem(401, {
    path: 'proof',
    expected: `${PROOF}: the number in ${CHALLENGE}, a dot, and the signature by this device’s key of this request with it`,
    received: undefined,
  })
}
