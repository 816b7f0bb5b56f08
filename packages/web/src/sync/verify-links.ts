import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { Expectation, Verdict } from '@rillmark/casebook/chain/verify.ts'

/** Verifies links and their signatures in a worker. Rejects when the worker fails. */
export function verifyLinks(links: readonly Link[], expected: Omit<Expectation, 'checkSignature'>): Promise<Verdict> {
  const worker = new Worker(new URL('./verify-links.worker.ts', import.meta.url), { type: 'module' })
  return new Promise<Verdict>((resolve, reject) => {
    worker.addEventListener('message', ({ data }: MessageEvent<Verdict>) => resolve(data))
    worker.addEventListener('error', ({ message }) => reject(new Error(message)))
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
    worker.postMessage({ expected, links })
  }).finally(() => worker.terminate())
}
