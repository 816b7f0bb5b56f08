import helmet from '@fastify/helmet'
import rateLimit from '@fastify/rate-limit'
import type { FastifyInstance } from 'fastify'
import type { Front } from '../access/front.ts'
import { problem } from '../http/problem.ts'

/** From one address: two hundred devices may come back behind one, each with entries and photos in pieces. What can be guessed at has limits of its own. */
const REQUESTS_A_MINUTE = 60_000
const YEAR_SECONDS = 31_536_000
/** The camera reads labels and takes photos, the screen stays on during a run; nothing else of the device is asked for. */
const PERMISSIONS =
  'camera=(self), screen-wake-lock=(self), fullscreen=(self), microphone=(), geolocation=(), payment=(), usb=(), serial=(), hid=(), midi=(), display-capture=()'

/** Strict headers: everything from this server only, no inline script, no plugin, shown in no other site's frame. */
export async function secure(app: FastifyInstance, front: Front): Promise<void> {
  const byProxy = front.kind === 'closed' && front.proxy !== undefined
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        // compiled programs from this server: the reader of labels is one
        scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'", 'data:', 'blob:'],
        fontSrc: ["'self'"],
        connectSrc: ["'self'"],
        workerSrc: ["'self'"],
        frameSrc: ["'self'", 'blob:'],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'self'"],
      },
    },
    // only where a proxy holds a certificate everybody trusts: on plain HTTP, or with a certificate of our own that gets lost, a promise of
    // HTTPS would lock the browser out
    strictTransportSecurity: byProxy && { maxAge: YEAR_SECONDS, includeSubDomains: false },
    xFrameOptions: { action: 'sameorigin' },
    referrerPolicy: { policy: 'no-referrer' },
  })
  app.addHook('onRequest', async (_request, reply) => {
    reply.header('permissions-policy', PERMISSIONS)
  })
  await app.register(rateLimit, {
    max: REQUESTS_A_MINUTE,
    timeWindow: '1 minute',
    errorResponseBuilder: (_request, { max }) =>
      problem(429, { expected: `at most ${max} requests a minute`, received: 'more' }),
  })
}
