import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { ServerKey } from '../devices/server-key.ts'
import type { Records } from '../records/records.ts'
import { certificateRoutes } from './certificate-routes.ts'
import { deviceRoutes } from './device-routes.ts'
import { enrolmentRoutes } from './enrolment-routes.ts'
import type { GuardOptions } from './guard-routes.ts'
import { linkRoutes } from './link-routes.ts'
import type { OpenStreams } from './open-streams.ts'
import { ownSessionRoutes } from './own-session-routes.ts'
import { receiptRoutes } from './receipt-routes.ts'
import { serverKeyRoutes } from './server-key-routes.ts'
import { sessionRoutes } from './session-routes.ts'

export interface AccessRouteOptions extends GuardOptions {
  readonly streams: OpenStreams
  readonly records: Records
  /** the server's own */
  readonly key: () => ServerKey
  /** where failures inside are told */
  readonly log: (error: unknown) => void
}

/** Coming in, going out, and what a laboratory may do without coming in. */
export function accessRoutes(options: AccessRouteOptions): FastifyPluginAsyncZod {
  return async (app) => {
    await app.register(enrolmentRoutes(options))
    await app.register(sessionRoutes(options))
    await app.register(ownSessionRoutes(options))
    await app.register(deviceRoutes(options))
    await app.register(serverKeyRoutes(options))
    await app.register(linkRoutes(options))
    await app.register(receiptRoutes(options))
    await app.register(certificateRoutes(options))
  }
}
