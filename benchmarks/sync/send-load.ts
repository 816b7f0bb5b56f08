import { Agent, request } from 'node:http'
import type { Load } from './load.ts'

const PIECE_BYTES = 256 * 1024

export interface Sent {
  /** how long each batch of entries took to be acknowledged */
  readonly batchMs: number[]
  /** those among them that made a second account */
  readonly contestMs: number[]
  readonly pieceMs: number[]
  readonly pullMs: number[]
  readonly wholeMs: number
}

/** When devices send: how long after the first the last comes back, and how long each then takes at least (its link is slow). */
export interface Pace {
  readonly comeOverMs: number
  readonly lastsMs: number
}

/**
 * All devices, each coming back at its time and then sending as the app does: entries in batches one after the other, each followed by a pull
 * of what is new; photos beside them, in pieces one after the other, none begun while a batch is under way.
 */
export async function sendLoads(
  loads: readonly Load[],
  { url, comeOverMs, lastsMs }: Pace & { url: string },
): Promise<Sent> {
  const sent = { batchMs: [] as number[], contestMs: [] as number[], pieceMs: [] as number[], pullMs: [] as number[] }
  const began = performance.now()
  await Promise.all(
    loads.map(async (load) => {
      await new Promise((resolve) => setTimeout(resolve, load.arrives * comeOverMs))
      await sendOne(load, { url, sent, lastsMs })
    }),
  )
  return { ...sent, wholeMs: performance.now() - began }
}

type Timings = Omit<Sent, 'wholeMs'>

async function sendOne(
  load: Load,
  { url, sent, lastsMs }: { url: string; sent: Timings; lastsMs: number },
): Promise<void> {
  const agent = new Agent({ keepAlive: true, maxSockets: 2 })
  const around = { agent, url, sent, lastsMs, batch: Promise.resolve() as Promise<unknown> }
  try {
    await Promise.all([sendEntries(load, around), sendPhotos(load, around)])
  } finally {
    agent.destroy()
  }
}

interface Around {
  readonly agent: Agent
  readonly url: string
  readonly sent: Timings
  readonly lastsMs: number
  /** the batch under way */
  batch: Promise<unknown>
}

async function sendEntries({ investigation, batches }: Load, around: Around): Promise<void> {
  const path = `/api/investigations/${investigation}/entries`
  let cursor = 0
  const due = paced(batches.length, around.lastsMs)
  for (const [nth, body] of batches.entries()) {
    await due(nth)
    const pushed = timed(around.sent.batchMs, () =>
      ask(around, { method: 'POST', path, type: 'application/json', body: Buffer.from(body) }),
    )
    around.batch = pushed
    const answer = await pushed
    if (!answer.includes('"refused":[]')) throw new Error(`refused: ${answer.slice(0, 500)}`)
    if (!answer.includes('"contested":[]')) around.sent.contestMs.push(around.sent.batchMs.at(-1) ?? Number.NaN)
    cursor = await pullAll(path, { cursor, around })
  }
}

async function pullAll(path: string, { cursor, around }: { cursor: number; around: Around }): Promise<number> {
  for (let at = cursor; ; ) {
    const page = await timed(around.sent.pullMs, () => ask(around, { method: 'GET', path: `${path}?after=${at}` }))
    // reading all of it is the devices' work, not the server's
    const head = Number(/"head":\{"sequence":(\d+)/.exec(page.slice(-200))?.[1])
    const links = Number(/.*"sequence":(\d+)/s.exec(page.slice(-4000, -120))?.[1] ?? at)
    if (links >= head || page.includes('"links":[]')) return head
    at = links
  }
}

async function sendPhotos({ photos }: Load, around: Around): Promise<void> {
  const pieces = photos.reduce((sum, { content }) => sum + Math.ceil(content.length / PIECE_BYTES), 0)
  const due = paced(pieces, around.lastsMs)
  let nth = 0
  for (const { sha256, content } of photos)
    for (let from = 0; from < content.length; from += PIECE_BYTES) {
      await due(nth++)
      await around.batch
      const path = `/api/attachments/${sha256}/pieces?from=${from}&of=${content.length}`
      const body = content.subarray(from, from + PIECE_BYTES)
      await timed(around.sent.pieceMs, () =>
        ask(around, { method: 'PUT', path, type: 'application/octet-stream', body }),
      )
    }
}

/** Waits until the turn of one of so many acts that are spread evenly over a time; at once where it is late. */
function paced(count: number, overMs: number): (nth: number) => Promise<void> {
  const began = performance.now()
  return async (nth) => {
    const waitMs = began + (nth / count) * overMs - performance.now()
    if (waitMs > 0) await new Promise((resolve) => setTimeout(resolve, waitMs))
  }
}

async function timed<T>(into: number[], work: () => Promise<T>): Promise<T> {
  const began = performance.now()
  const result = await work()
  into.push(performance.now() - began)
  return result
}

interface Question {
  readonly method: string
  readonly path: string
  readonly type?: string
  readonly body?: Uint8Array
}

function ask({ agent, url }: Around, { method, path, type, body }: Question): Promise<string> {
  const headers = body === undefined ? {} : { 'content-type': type, 'content-length': body.length }
  return new Promise((resolve, reject) => {
    const asked = request(`${url}${path}`, { method, agent, headers }, (response) => {
      const chunks: Buffer[] = []
      response.on('data', (chunk: Buffer) => chunks.push(chunk))
      response.on('error', reject)
      response.on('end', () => {
        const text = Buffer.concat(chunks).toString('utf8')
        if (response.statusCode === 200) resolve(text)
        else reject(new Error(`${method} ${path}: ${response.statusCode} ${text.slice(0, 300)}`))
      })
    })
    asked.on('error', reject)
    asked.end(body)
  })
}
