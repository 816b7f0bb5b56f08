import type { Head } from '@rillmark/casebook/chain/link.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { callerOf } from '../access/caller.ts'
import type { Records } from '../records/records.ts'
import { problem } from '../http/problem.ts'
import { investigationParams } from '../http/schemas.ts'

const HEARTBEAT_MS = 25_000
const MOST_STREAMS = 500
/** Tabs of one browser: nobody takes the streams of others. */
const MOST_A_DEVICE = 20
/** Whoever does not read what it is told is let go of: it asks again. */
const MOST_UNREAD_BYTES = 64 * 1024

/** Tells of each new head of a record as a server-sent event, so that other devices pull at once. */
export function eventRoutes({ records }: { records: Records }): FastifyPluginAsyncZod {
  /** what ends a stream, and whose it is */
  const ends = new Map<() => void, string | undefined>()
  return async (app) => {
    app.addHook('preClose', async () => {
      for (const end of ends.keys()) end()
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
        const device = callerOf(request).device?.id
        if (device !== undefined && [...ends.values()].filter((each) => each === device).length >= MOST_A_DEVICE)
          throw problem(429, { expected: `at most ${MOST_A_DEVICE} listeners a device`, received: 'one more' })
        const { id } = request.params
        const head = await records.ledger.head(id)
        reply.hijack()
        const { raw } = reply
        raw.writeHead(200, {
          ...headersOf(reply.getHeaders()),
          'content-type': 'text/event-stream',
          'cache-control': 'no-store',
        })
        const say = (text: string) => {
          raw.write(text)
          if (raw.writableLength > MOST_UNREAD_BYTES) raw.destroy()
        }
        const tell = (next: Head) => say(`event: head\ndata: ${JSON.stringify(next)}\n\n`)
        tell(head)
        const unfollow = records.follow(id, tell)
        const heartbeat = setInterval(() => say(': still here\n\n'), HEARTBEAT_MS)
        const end = () => {
          clearInterval(heartbeat)
          unfollow()
          ends.delete(end)
          raw.end()
        }
        ends.set(end, device)
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
