import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'

/** Takes pieces as the real server does, in memory, and can be made to fail: put it in the place of `fetch`. */
export class PieceServer {
  readonly whole = new Map<string, Uint8Array>()
  readonly part = new Map<string, Uint8Array>()
  /** every request, as `GET` or `PUT from` */
  readonly asked: string[] = []
  /** before it acts; what it gives is the answer, what it throws is a lost connection */
  before: (method: string) => Response | undefined | Promise<undefined> = () => undefined
  /** after it acted: throw to lose the answer */
  after: (method: string) => void = () => undefined

  readonly fetch = async (path: string, init: RequestInit = {}): Promise<Response> => {
    const { method = 'GET' } = init
    const url = new URL(path, 'http://server.test')
    const sha256 = url.pathname.split('/')[3] ?? ''
    const from = Number(url.searchParams.get('from'))
    this.asked.push(method === 'GET' ? 'GET' : `PUT ${from}`)
    const instead = await this.before(method)
    if (instead !== undefined) return instead
    const of = Number(url.searchParams.get('of'))
    const answer = method === 'GET' ? Response.json(this.#has(sha256)) : this.#put(sha256, { from, of, init })
    this.after(method)
    return answer
  }

  #has(sha256: string): { received: number; whole: boolean } {
    const whole = this.whole.get(sha256)
    return { received: (whole ?? this.part.get(sha256))?.length ?? 0, whole: whole !== undefined }
  }

  #put(sha256: string, { from, of, init }: { from: number; of: number; init: RequestInit }): Response {
    const has = this.#has(sha256)
    if (has.whole) return Response.json(has)
    if (from !== has.received)
      return Response.json({ ...has, issues: [{ path: 'from', expected: '', received: '' }] }, { status: 409 })
    const bytes = Uint8Array.from([...(this.part.get(sha256) ?? []), ...(init.body as Uint8Array)])
    this.part.set(sha256, bytes)
    if (bytes.length < of) return Response.json(this.#has(sha256))
    this.part.delete(sha256)
    if (sha256OfBytes(bytes) !== sha256)
      return Response.json({ issues: [{ path: 'sha256', expected: 'x', received: 'y' }] }, { status: 422 })
    this.whole.set(sha256, bytes)
    return Response.json(this.#has(sha256))
  }
}
