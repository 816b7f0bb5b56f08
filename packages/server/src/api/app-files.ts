import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import fastifyStatic from '@fastify/static'
import type { FastifyInstance } from 'fastify'
import { problem } from '../http/problem.ts'

const YEAR_SECONDS = 31_536_000
/** The page that verifies packages: one file with its script inside, under the policy it names itself. */
const VERIFIER = 'verify.html'

/** Serves the built app; every address that is no file and no API opens the app, which finds its own way. */
export async function serveApp(app: FastifyInstance, folder: string): Promise<void> {
  const built = existsSync(join(folder, 'index.html'))
  if (built)
    await app.register(fastifyStatic, {
      root: folder,
      index: 'index.html',
      wildcard: true,
      setHeaders: (reply, path) => {
        const hashed = path.startsWith(join(folder, 'assets'))
        if (path === join(folder, VERIFIER)) reply.header('content-security-policy', ownPolicy(path))
        reply.header('cache-control', hashed ? `public, max-age=${YEAR_SECONDS}, immutable` : 'no-cache')
      },
    })
  app.setNotFoundHandler(async (request, reply) => {
    const page =
      (request.method === 'GET' || request.method === 'HEAD') && !/^\/(?:api|assets)(?:\/|$)/.test(request.url)
    if (!page)
      throw problem(404, {
        path: 'url',
        expected: 'an address of this server',
        received: `${request.method} ${request.url}`,
      })
    if (built) return reply.header('cache-control', 'no-cache').sendFile('index.html')
    return reply
      .code(503)
      .type('text/plain; charset=utf-8')
      .send('The app is not built yet. Run "npm run build", then start again.\n')
  })
}

function ownPolicy(path: string): string {
  const found = /http-equiv="content-security-policy" content="([^"]+)"/.exec(readFileSync(path, 'utf8'))?.[1]
  return `${found ?? "default-src 'none'"}; frame-ancestors 'none'`
}
