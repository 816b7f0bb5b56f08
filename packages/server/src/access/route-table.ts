import type { Role } from './roles.ts'

/**
 * Who may call a route where the server is for others: anyone; whoever holds a consignment link; or a device with a session and at least
 * this role (a lead may what a sampler may, a sampler what a reader may). On a server for one's own machine alone only `link` is asked for.
 */
export type Level = 'anyone' | 'link' | Role

/** Every route there is. A route without a line here keeps the server from starting, so that none is open by being forgotten. */
export const ROUTE_LEVELS: Readonly<Record<string, Level>> = {
  // the app itself: the same files for everybody
  'GET /*': 'anyone',

  'GET /api/health': 'anyone',
  'GET /api/certificate': 'anyone',

  'POST /api/enrolment': 'anyone',
  'POST /api/session/challenge': 'anyone',
  'POST /api/session': 'anyone',
  'GET /api/session': 'reader',
  'DELETE /api/session': 'anyone',
  'POST /api/invitations': 'lead',
  'GET /api/devices': 'reader',
  'GET /api/server-key': 'reader',
  'POST /api/devices/:id/revocation': 'lead',

  'GET /api/investigations': 'reader',
  'GET /api/investigations/:id/entries': 'reader',
  'POST /api/investigations/:id/entries': 'sampler',
  'GET /api/investigations/:id/events': 'reader',
  'POST /api/investigations/import': 'lead',
  'POST /api/demo': 'lead',

  'GET /api/documents': 'reader',
  'GET /api/investigations/:id/documents/:kind': 'reader',

  'GET /api/attachments/:sha256': 'reader',
  'PUT /api/attachments/:sha256': 'sampler',
  'GET /api/attachments/:sha256/pieces': 'sampler',
  'PUT /api/attachments/:sha256/pieces': 'sampler',

  'GET /api/investigations/:id/consignment-links': 'reader',
  'POST /api/investigations/:id/consignment-links': 'sampler',
  'POST /api/investigations/:id/consignment-links/:link/revocation': 'sampler',
  'GET /api/receipt': 'link',
  'POST /api/receipt': 'link',

  'GET /api/calculations': 'reader',
  'POST /api/calculations/:id': 'reader',
  'GET /api/reference/procedures': 'reader',
  'GET /api/reference/criteria': 'reader',
  'GET /api/openapi.json': 'reader',
}

/** What is done by the key of a device, not by its session alone. */
const PROVED: ReadonlySet<string> = new Set([
  'POST /api/invitations',
  'POST /api/devices/:id/revocation',
  'POST /api/investigations/import',
  'POST /api/demo',
  'POST /api/investigations/:id/consignment-links',
  'POST /api/investigations/:id/consignment-links/:link/revocation',
])

export function isProved(method: string, url: string): boolean {
  return PROVED.has(`${method} ${url}`)
}

/** The level of a route as Fastify knows it; HEAD is GET without the body. */
export function levelOf(method: string, url: string): Level | undefined {
  const line = `${method === 'HEAD' ? 'GET' : method} ${url}`
  return Object.hasOwn(ROUTE_LEVELS, line) ? ROUTE_LEVELS[line] : undefined
}
