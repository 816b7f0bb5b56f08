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

/** What the server's own machine goes by, where nobody is asked who they are. */
export const THIS_MACHINE = 'this machine'

/** Who makes or ends something: what they call themselves, and the device in the register that it is done on. */
export function makerOf(request: FastifyRequest): { readonly by: string; readonly maker: string | undefined } {
  const { device } = callerOf(request)
  return { by: device?.name ?? THIS_MACHINE, maker: device?.id }
}

export function setCaller(request: FastifyRequest, caller: Caller): void {
  callers.set(request, caller)
}

export function callerOf(request: FastifyRequest): Caller {
  return callers.get(request) ?? NOBODY
}
