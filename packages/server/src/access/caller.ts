import type { FastifyRequest } from 'fastify'
import type { ConsignmentLink } from './consignment-links.ts'
import type { EnrolledDevice } from './devices.ts'
import type { Session } from './sessions.ts'

/** Who a request comes from: nobody in particular, a device with a session, or the holder of a consignment link. */
export interface Caller {
  readonly device?: EnrolledDevice
  readonly session?: Session
  readonly link?: ConsignmentLink
}

const callers = new WeakMap<FastifyRequest, Caller>()
const NOBODY: Caller = {}

export function setCaller(request: FastifyRequest, caller: Caller): void {
  callers.set(request, caller)
}

export function callerOf(request: FastifyRequest): Caller {
  return callers.get(request) ?? NOBODY
}
