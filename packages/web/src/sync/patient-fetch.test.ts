import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { dropUnanswered, fetchPatiently, LONG_MS } from './patient-fetch.ts'
import { askServer, httpServer, Unreachable } from './server-port.ts'

/** A network that takes requests and answers only when told; a browser ends a fetch with the reason it was aborted with. */
function silentNetwork() {
  const answers: ((response: Response) => void)[] = []
  vi.stubGlobal('fetch', (_path: string, init: RequestInit = {}) => {
    return new Promise<Response>((answer, fail) => {
      answers.push(answer)
      init.signal?.addEventListener('abort', () => fail(init.signal?.reason as Error))
    })
  })
  return { answers }
}

const outcomeOf = (promise: Promise<unknown>) => {
  const seen: { outcome: unknown } = { outcome: 'waiting' }
  promise.then(
    (value) => (seen.outcome = value),
    (error: unknown) => (seen.outcome = error),
  )
  return seen
}

beforeEach(() => void vi.useFakeTimers())
afterEach(() => {
  vi.useRealTimers()
  vi.unstubAllGlobals()
})

test('[SYN33] a request that is not answered ends as a server that can’t be reached', async () => {
  silentNetwork()
  const pull = outcomeOf(httpServer.pull('marram-house', 0))
  await vi.advanceTimersByTimeAsync(59_000)
  expect(pull.outcome).toBe('waiting')
  await vi.advanceTimersByTimeAsync(2000)
  expect(pull.outcome).toBeInstanceOf(Unreachable)
})

test('[SYN33] what is sent has time to go out on a slow network, and what takes the server long has it', async () => {
  silentNetwork()
  const piece = outcomeOf(fetchPatiently('/api/piece', { method: 'PUT', body: new Uint8Array(256 * 1024) }))
  const paper = outcomeOf(fetchPatiently('/api/paper', { patienceMs: LONG_MS }))
  await vi.advanceTimersByTimeAsync(185_000)
  expect([piece.outcome, paper.outcome]).toEqual(['waiting', 'waiting'])
  await vi.advanceTimersByTimeAsync(120_000)
  expect(piece.outcome).toMatchObject({ name: 'TimeoutError' })
  expect(paper.outcome).toMatchObject({ name: 'TimeoutError' })
})

test('[SYN33] an answer that keeps coming is waited for, however slow; one that stops is given up', async () => {
  const { answers } = silentNetwork()
  const asked = outcomeOf(askServer('/api/investigations'))
  let more: ReadableStreamDefaultController<Uint8Array> | undefined
  const body = new ReadableStream<Uint8Array>({ start: (controller) => void (more = controller) })
  answers[0]?.(new Response(body, { status: 200 }))
  const bytes = new TextEncoder().encode('{"slow":"but whole"}')
  for (const byte of bytes) {
    await vi.advanceTimersByTimeAsync(50_000)
    more?.enqueue(Uint8Array.of(byte))
  }
  more?.close()
  await vi.advanceTimersByTimeAsync(0)
  expect(asked.outcome).toEqual({ slow: 'but whole' })
  expect(vi.getTimerCount()).toBe(0)

  const signals: (AbortSignal | null | undefined)[] = []
  vi.stubGlobal('fetch', async (_path: string, init: RequestInit = {}) => {
    signals.push(init.signal)
    return new Response(new ReadableStream({ start: (out) => out.enqueue(Uint8Array.of(123)) }))
  })
  void fetchPatiently('/api/investigations').then((response) => response.json().catch(() => undefined))
  await vi.advanceTimersByTimeAsync(50_000)
  expect(signals[0]?.aborted).toBe(false)
  await vi.advanceTimersByTimeAsync(11_000)
  expect(signals[0]?.aborted).toBe(true)
})

test('[SYN33] when the network comes back, what will be asked again is dropped at once, and nothing else', async () => {
  silentNetwork()
  const pull = outcomeOf(httpServer.pull('marram-house', 0))
  const push = outcomeOf(httpServer.push('marram-house', []))
  const joining = outcomeOf(askServer('/api/enrolment', { method: 'POST', body: '{}' }))
  dropUnanswered()
  await vi.advanceTimersByTimeAsync(0)
  expect(pull.outcome).toBeInstanceOf(Unreachable)
  expect(push.outcome).toBeInstanceOf(Unreachable)
  expect(joining.outcome).toBe('waiting')
})
