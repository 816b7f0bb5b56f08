import { sha256Hex } from '@rillmark/casebook/entry/fields.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { accessRefusals } from './access-schemas.ts'
import type { AccessRouteOptions } from './access-routes.ts'

/** By which key this server signs, so that whoever was given a receipt can be told over another way. */
export function serverKeyRoutes({ key }: Pick<AccessRouteOptions, 'key'>): FastifyPluginAsyncZod {
  return async (app) => {
    app.get(
      '/server-key',
      {
        schema: {
          summary: 'The thumbprint (RFC 7638, SHA-256) of the key the server signs receipts and its own entries with',
          tags: ['access'],
          response: { 200: z.object({ thumbprint: sha256Hex }), ...accessRefusals },
        },
      },
      async () => ({ thumbprint: key().thumbprint }),
    )
  }
}
