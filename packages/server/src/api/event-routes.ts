import type { Head } from '@rillmark/casebook/chain/link.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { Records } from '../records/records.ts'
import { problem } from './problems.ts'
import { investigationParams } from './schemas.ts'

const HEARTBEAT_MS = 25_000
const MOST_STREAMS = 500

/** Tells of each new head of a record as a server-sent event, so that other devices pull at once. */
export function eventRoutes({ records }: { records: Records }): FastifyPluginAsyncZod {
  const ends = new Set<() => void>()
  return async (app) => {
    app.addHook('preClose', async () => {
      for (const end of ends) end()
    })
    app.get(
      '/investigations/:id/events',
      {
        // a HEAD request would wait for ever for a stream that has no end
        exposeHeadRoute: false,
        schema: {
          summary: 'New heads of a record as server-sent events',
          tags: ['record'],
          params: investigationParams,
          produces: ['text/event-stream'],
        },
      },
      async (request, reply) => {
        if (ends.size >= MOST_STREAMS)
          throw problem(503, { expected: `at most ${MOST_STREAMS} listeners`, received: 'one more' })
        const { id } = request.params
        const head = await records.ledger.head(id)
        reply.hijack()
        const { raw } = reply
        raw.writeHead(200, {
          ...headersOf(reply.getHeaders()),
          'content-type': 'text/event-stream',
          'cache-control': 'no-store',
        })
        const tell = (next: Head) => raw.write(`event: head\ndata: ${JSON.stringify(next)}\n\n`)
        tell(head)
        const unfollow = records.follow(id, tell)
        const heartbeat = setInterval(() => raw.write(': still here\n\n'), HEARTBEAT_MS)
        const end = () => {
          clearInterval(heartbeat)
          unfollow()
          ends.delete(end)
          raw.end()
        }
        ends.add(end)
        raw.on('close', end)
      },
    )
  }
}

function headersOf(
  headers: Record<string, number | string | string[] | undefined>,
): Record<string, number | string | string[]> {
  return Object.fromEntries(
    Object.entries(headers).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])),
  )
}
