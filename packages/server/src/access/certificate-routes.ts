import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { problem } from '../http/problem.ts'
import { accessRefusals } from './access-schemas.ts'
import type { GuardOptions } from './guard-routes.ts'

/** What a device is told to trust, once. Its fingerprint stands at the terminal of the server. */
export function certificateRoutes({ front }: Pick<GuardOptions, 'front'>): FastifyPluginAsyncZod {
  return async (app) => {
    app.get(
      '/certificate',
      {
        schema: {
          summary: 'The certificate of this server’s own authority, to be trusted by devices',
          tags: ['access'],
          produces: ['application/x-x509-ca-cert'],
          response: accessRefusals,
        },
      },
      async (_request, reply) => {
        const authority = front.kind === 'closed' ? front.authority?.() : undefined
        if (authority === undefined)
          throw problem(404, { expected: 'a server with a certificate of its own', received: 'one without' })
        return reply
          .type('application/x-x509-ca-cert')
          .header('content-disposition', 'attachment; filename="rillmark.crt"')
          .send(Buffer.from(authority) as never)
      },
    )
  }
}
