import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { type Problem, problem } from '../http/problem.ts'
import type { Access } from './access.ts'
import { callerOf, setCaller } from './caller.ts'
import type { Front } from './front.ts'
import { isAtLeast, type Role } from './roles.ts'
import { isProved, type Level, levelOf } from './route-table.ts'
import { giveSession, sessionTokenOf } from './session-cookie.ts'

export interface GuardOptions {
  readonly access: Access
  readonly front: Front
}

/** What the API says of itself: who may call a route. */
const SECURITY: Readonly<Record<Level, object[]>> = {
  anyone: [],
  link: [{ consignment: [] }],
  reader: [{ session: ['reader'] }],
  sampler: [{ session: ['sampler'] }],
  lead: [{ session: ['lead'] }],
}

function securityOf(level: Level, proved: boolean): object[] {
  return proved ? SECURITY[level].map((each) => ({ ...each, proof: [] })) : SECURITY[level]
}

const API = /^\/api(?:\/|$)/

/**
 * Lets a request through only where the table of routes says so. It goes by the route that was found, not by how the address was written,
 * so no spelling of an address leads past it.
 */
export function guardRoutes(app: FastifyInstance, options: GuardOptions): void {
  app.addHook('onRoute', (route) => {
    for (const each of [route.method].flat()) {
      const level = levelOf(each, route.url)
      if (level === undefined)
        throw new Error(
          `Cannot serve a route because access/route-table.ts has no line for it: got ${each} ${route.url}`,
        )
      if (route.schema !== undefined)
        Object.assign(route.schema, { security: securityOf(level, isProved(each, route.url)) })
    }
  })
  app.addHook('onRequest', async (request, reply) => {
    if (API.test(request.url)) reply.header('cache-control', 'no-store')
  })
  // after the limits of requests, before a body is read
  app.addHook('preParsing', async (request, reply) => {
    const { url } = request.routeOptions
    if (request.is404 || url === undefined) return
    const level = levelOf(request.method, url)
    if (level === undefined) throw problem(403, { expected: 'a route with its line in the table', received: url })
    admit(request, reply, { level, ...options })
  })
  // a body can take minutes to come in: whoever was put out meanwhile is out
  app.addHook('preHandler', async (request) => {
    const { device, link } = callerOf(request)
    if (link !== undefined) admitLink(request, options.access)
    if (device === undefined || options.access.device(device.id)?.revoked === undefined) return
    setCaller(request, {})
    if (levelOf(request.method, request.routeOptions.url ?? '') !== 'anyone') throw noSession(device.id)
  })
}

function admit(
  request: FastifyRequest,
  reply: FastifyReply,
  { level, access, front }: GuardOptions & { level: Level },
): void {
  if (level === 'link') admitLink(request, access)
  else if (front.kind === 'closed') admitDevice(request, reply, { level, access, front })
}

function admitLink(request: FastifyRequest, access: Access): void {
  const token = /^Bearer (?<token>[\w.-]{1,200})$/i.exec(request.headers.authorization ?? '')?.groups?.['token']
  const link = token === undefined ? undefined : access.openLink(token)
  if (link === undefined)
    throw problem(401, {
      path: 'authorization',
      expected: 'Bearer and the token of a consignment link that has neither ended nor been revoked',
      received: token === undefined ? undefined : 'another one',
    })
  setCaller(request, { link })
}

function admitDevice(
  request: FastifyRequest,
  reply: FastifyReply,
  { level, access, front }: GuardOptions & { level: 'anyone' | Role },
): void {
  const token = sessionTokenOf(request, front)
  const session = token === undefined ? undefined : access.sessions.find(token)
  const device = session === undefined ? undefined : access.device(session.device)
  const isIn = device !== undefined && device.revoked === undefined
  if (isIn && session !== undefined) {
    setCaller(request, { device, session })
    if (session.fresh !== undefined) giveSession(reply, { token: session.fresh, front })
  }
  if (level === 'anyone') return
  if (!isIn) throw noSession(token)
  if (!isAtLeast(device.role, level))
    throw problem(403, { path: 'role', expected: `a ${level}’s device`, received: `a ${device.role}’s` })
}

function noSession(token: string | undefined): Problem {
  const received = token === undefined ? undefined : 'one that has ended'
  return problem(401, { path: 'session', expected: 'a session of an enrolled device', received })
}
