import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Front } from './front.ts'
import { ABSOLUTE_MS } from './sessions.ts'

/** The prefix has browsers refuse a cookie of this name that is not Secure, of this host alone and of every path (RFC 6265bis, from memory). */
const SECURE_NAME = '__Host-rillmark'
const PLAIN_NAME = 'rillmark'

const nameAt = (front: Front): string => (front.kind === 'closed' ? SECURE_NAME : PLAIN_NAME)

/** Sent back by no other site's page (SameSite), read by no script (HttpOnly), over HTTPS only where there is HTTPS (Secure). */
const attributesAt = (front: Front) =>
  ({ path: '/', httpOnly: true, sameSite: 'strict', secure: front.kind === 'closed' }) as const

export function sessionTokenOf(request: FastifyRequest, front: Front): string | undefined {
  return request.cookies[nameAt(front)]
}

export function giveSession(reply: FastifyReply, { token, front }: { token: string; front: Front }): void {
  void reply.setCookie(nameAt(front), token, { ...attributesAt(front), maxAge: ABSOLUTE_MS / 1000 })
}

export function takeSession(reply: FastifyReply, front: Front): void {
  void reply.clearCookie(nameAt(front), attributesAt(front))
}
