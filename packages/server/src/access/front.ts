import type { FastifyRequest } from 'fastify'

/** Where a server stands: for its own machine alone, or where others reach it. */
export type Front = OpenFront | ClosedFront

/** Bound to this machine: whoever sits at it may do everything, nobody else gets here. */
export interface OpenFront {
  readonly kind: 'open'
}

/** Reached by others: over HTTPS of its own, or through a proxy that does HTTPS. */
export interface ClosedFront {
  readonly kind: 'closed'
  /** the certificate of the server's own authority (DER) as of now, where it made one */
  readonly authority?: () => Uint8Array
  readonly proxy?: Proxy
}

/** A proxy in front: the address people type, and from where alone its requests may come. */
export interface Proxy {
  readonly origin: string
  readonly addresses: readonly string[]
}

/** The address people reach this server at. */
export function originOf(request: FastifyRequest, front: Front): string {
  if (front.kind === 'closed' && front.proxy !== undefined) return front.proxy.origin
  const origin = `${request.protocol}://${request.headers.host ?? ''}`
  return URL.canParse(origin) ? new URL(origin).origin : origin
}
