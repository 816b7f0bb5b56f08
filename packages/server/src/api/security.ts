import helmet from '@fastify/helmet'
import rateLimit from '@fastify/rate-limit'
import type { FastifyInstance } from 'fastify'
import { problem } from './problems.ts'

const REQUESTS_A_MINUTE = 6000

/** Strict headers: everything from this server only, no inline script, no plugin, shown in no other site's frame. */
export async function secure(app: FastifyInstance): Promise<void> {
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
    // plain HTTP on one's own machine: a promise of HTTPS would lock the browser out
    strictTransportSecurity: false,
    xFrameOptions: { action: 'sameorigin' },
    referrerPolicy: { policy: 'no-referrer' },
  })
  await app.register(rateLimit, {
    max: REQUESTS_A_MINUTE,
    timeWindow: '1 minute',
    errorResponseBuilder: (_request, { max }) =>
      problem(429, { expected: `at most ${max} requests a minute`, received: 'more' }),
  })
}
