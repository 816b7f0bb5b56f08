import cookie from '@fastify/cookie'
import swagger from '@fastify/swagger'
import fastify, { type FastifyError, type FastifyInstance, type FastifyReply } from 'fastify'
import { jsonSchemaTransform } from 'fastify-type-provider-zod'
import { Access } from '../access/access.ts'
import { accessRoutes } from '../access/access-routes.ts'
import type { Front } from '../access/front.ts'
import { guardProof, PROOF } from '../access/guard-proof.ts'
import { guardProxy } from '../access/guard-proxy.ts'
import { guardRoutes } from '../access/guard-routes.ts'
import { OpenStreams } from '../access/open-streams.ts'
import { openServerKey } from '../devices/server-key.ts'
import type { Data } from '../data/open-data.ts'
import { serveApp } from './app-files.ts'
import { attachmentRoutes } from './attachment-routes.ts'
import { calculationRoutes } from './calculation-routes.ts'
import { documentRoutes } from './document-routes.ts'
import { eventRoutes } from './event-routes.ts'
import { packageRoutes } from './package-routes.ts'
import { pieceRoutes } from './piece-routes.ts'
import { answerPlainHttp } from './plain-http.ts'
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
  /** who reaches the server, and how; open to its own machine when left out */
  readonly front?: Front
  /** its own HTTPS, where no proxy does it */
  readonly tls?: { readonly key: string; readonly cert: string }
  /** who may come in; that of the data folder when left out */
  readonly access?: Access
  /** where failures inside are told; never to the client */
  readonly log: (error: unknown) => void
}

const BODY_BYTES = 1024 * 1024
/** A request that is not whole by then is given up: a connection that sends nothing more must not be held for ever. */
const REQUEST_MS = 300_000

/** The server: API under /api, the app everywhere else. */
export async function buildApp(options: AppOptions): Promise<FastifyInstance> {
  const { data, appFolder, log, loopbackOnly, front = { kind: 'open' } } = options
  const access = options.access ?? new Access(data.folder)
  const streams = new OpenStreams(access.now)
  const app = bareApp(options)
  answerProblems(app, log)
  checkWithZod(app)
  guardProxy(app, front)
  guardOrigin(app, { loopbackOnly, front })
  await secure(app, front)
  await app.register(cookie)
  guardRoutes(app, { access, front })
  guardProof(app, access)
  streams.watch(app)
  await describe(app)
  const key = () => openServerKey(data.folder)
  const routes = [
    serviceRoutes({ records: data.records, front }),
    recordRoutes({ ...data, deviceOf: front.kind === 'open' ? undefined : (id) => access.device(id) }),
    eventRoutes(data),
    packageRoutes({ ...data, access, key, log }),
    documentRoutes(data),
    attachmentRoutes(data),
    pieceRoutes(data),
    calculationRoutes,
    referenceRoutes,
    accessRoutes({ access, front, streams, records: data.records, key, log }),
  ]
  for (const route of routes) await app.register(route, { prefix: '/api' })
  await serveApp(app, appFolder)
  app.addHook('onClose', async () => access.close())
  return app
}

function bareApp({ front, tls }: AppOptions): FastifyInstance {
  // a request without a host is refused by the guard, in the words of everything else
  const http = { requireHostHeader: false }
  const common = {
    bodyLimit: BODY_BYTES,
    requestTimeout: REQUEST_MS,
    forceCloseConnections: true,
    routerOptions: { maxParamLength: 200 },
    trustProxy: front?.kind === 'closed' && front.proxy !== undefined ? [...front.proxy.addresses] : false,
    frameworkErrors: (error: FastifyError, _request: unknown, reply: FastifyReply) => answerBadAddress(error, reply),
    clientErrorHandler: answerBrokenHttp,
  }
  if (tls === undefined) return fastify({ ...common, http })
  const app = fastify({ ...common, https: { ...http, ...tls, minVersion: 'TLSv1.2' } })
  answerPlainHttp(app.server)
  return app
}

const PROOF_TOLD =
  'On a server for others: the number of the header `rillmark-challenge` that the answer 401 came with, a dot, and a signature as at enrolment over the canonical JSON of `{ device, nonce, method, path, body }`; `body` is the SHA-256 of its bytes in hexadecimal.'

async function describe(app: FastifyInstance): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Rillmark',
        version: '1',
        description: 'The record of investigations, calculations and documents.',
      },
      components: {
        securitySchemes: {
          session: { type: 'apiKey', in: 'cookie', name: '__Host-rillmark', description: 'Of an enrolled device' },
          proof: { type: 'apiKey', in: 'header', name: PROOF, description: PROOF_TOLD },
          consignment: { type: 'http', scheme: 'bearer', description: 'The token of a consignment link' },
        },
      },
    },
    transform: jsonSchemaTransform,
  })
}
