import type { FastifyInstance, FastifyRequest } from 'fastify'
import { type Front, originOf } from '../access/front.ts'
import { problem } from '../http/problem.ts'

const READING = new Set(['GET', 'HEAD', 'OPTIONS'])
const LOOPBACK = /^(?:localhost|127\.0\.0\.1|\[::1\])(?::\d+)?$/i

/**
 * Lets only this server's own pages write: a page of another site that a browser happens to show can't (its Origin differs, in scheme,
 * host or port), and a name that was made to point at this machine can't read either while the server is bound to this machine alone.
 */
export function guardOrigin(
  app: FastifyInstance,
  { loopbackOnly, front }: { loopbackOnly: boolean; front: Front },
): void {
  app.addHook('onRequest', async (request) => {
    const host = request.headers.host ?? ''
    if (loopbackOnly && !LOOPBACK.test(host))
      throw problem(403, { path: 'host', expected: 'this machine by its own name', received: host || undefined })
    if (READING.has(request.method)) return
    const own = originOf(request, front)
    if (!isOwn(request, own))
      throw problem(403, { path: 'origin', expected: `a page of ${own}`, received: request.headers.origin })
  })
}

function isOwn({ headers }: FastifyRequest, own: string): boolean {
  const site = headers['sec-fetch-site']
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return false
  const { origin } = headers
  if (origin === undefined) return true
  return URL.canParse(origin) && new URL(origin).origin === own
}
