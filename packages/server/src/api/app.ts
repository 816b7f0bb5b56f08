import swagger from '@fastify/swagger'
import fastify, { type FastifyInstance } from 'fastify'
import { jsonSchemaTransform } from 'fastify-type-provider-zod'
import type { Data } from '../folder/open-data.ts'
import { serveApp } from './app-files.ts'
import { attachmentRoutes } from './attachment-routes.ts'
import { calculationRoutes } from './calculation-routes.ts'
import { documentRoutes } from './document-routes.ts'
import { eventRoutes } from './event-routes.ts'
import { packageRoutes } from './package-routes.ts'
import { pieceRoutes } from './piece-routes.ts'
import { answerBadAddress, answerBrokenHttp, answerProblems } from './problems.ts'
import { recordRoutes } from './record-routes.ts'
import { referenceRoutes } from './reference-routes.ts'
import { guardOrigin } from './same-origin.ts'
import { secure } from './security.ts'
import { serviceRoutes } from './service-routes.ts'
import { checkWithZod } from './validation.ts'

export interface AppOptions {
  readonly data: Data
  /** the built app */
  readonly appFolder: string
  /** answer only to names of this machine; true unless the server is meant for others */
  readonly loopbackOnly: boolean
  /** where failures inside are told; never to the client */
  readonly log: (error: unknown) => void
}

const BODY_BYTES = 1024 * 1024
/** A request that is not whole by then is given up: a connection that sends nothing more must not be held for ever. */
const REQUEST_MS = 300_000

/** The server: API under /api, the app everywhere else. */
export async function buildApp({ data, appFolder, loopbackOnly, log }: AppOptions): Promise<FastifyInstance> {
  const app = fastify({
    bodyLimit: BODY_BYTES,
    requestTimeout: REQUEST_MS,
    forceCloseConnections: true,
    routerOptions: { maxParamLength: 200 },
    // a request without a host is refused by the guard, in the words of everything else
    http: { requireHostHeader: false },
    frameworkErrors: (error, _request, reply) => answerBadAddress(error, reply),
    clientErrorHandler: answerBrokenHttp,
  })
  answerProblems(app, log)
  checkWithZod(app)
  guardOrigin(app, { loopbackOnly })
  await secure(app)
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Rillmark',
        version: '1',
        description: 'The record of investigations, calculations and documents.',
      },
    },
    transform: jsonSchemaTransform,
  })
  const routes = [
    serviceRoutes(data),
    recordRoutes(data),
    eventRoutes(data),
    packageRoutes(data),
    documentRoutes(data),
    attachmentRoutes(data),
    pieceRoutes(data),
    calculationRoutes,
    referenceRoutes,
  ]
  for (const route of routes) await app.register(route, { prefix: '/api' })
  await serveApp(app, appFolder)
  return app
}
