import type { ServerResponse } from 'node:http'
import type { FastifyInstance } from 'fastify'
import { callerOf } from './caller.ts'

const STREAM = '/api/investigations/:id/events'

/** Answers that go on for as long as somebody listens: cut when their session ends, at the latest when it would have. */
export class OpenStreams {
  readonly #open = new Map<string, Set<ServerResponse>>()
  readonly #now: () => number

  constructor(now: () => number) {
    this.#now = now
  }

  /** Follows every stream this server opens. */
  watch(app: FastifyInstance): void {
    app.addHook('preHandler', async (request, reply) => {
      const { session } = callerOf(request)
      if (session !== undefined && request.routeOptions.url === STREAM) this.#add(reply.raw, session)
    })
  }

  /** Ends all streams of a device. */
  end(device: string): void {
    for (const stream of this.#open.get(device) ?? []) stream.destroy()
  }

  #add(stream: ServerResponse, { device, ends }: { device: string; ends: number }): void {
    const streams = this.#open.get(device) ?? new Set()
    this.#open.set(device, streams.add(stream))
    const timer = setTimeout(() => stream.destroy(), ends - this.#now())
    timer.unref()
    stream.once('close', () => {
      clearTimeout(timer)
      streams.delete(stream)
      if (streams.size === 0) this.#open.delete(device)
    })
  }
}
