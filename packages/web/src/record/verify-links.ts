import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { Verdict } from '@rillmark/casebook/chain/verify.ts'

/** Verifies the links in a worker. Rejects when the worker fails. */
export function verifyLinks(investigation: string, links: readonly Link[]): Promise<Verdict> {
  const worker = new Worker(new URL('./verify-links.worker.ts', import.meta.url), { type: 'module' })
  return new Promise<Verdict>((resolve, reject) => {
    worker.addEventListener('message', ({ data }: MessageEvent<Verdict>) => resolve(data))
    worker.addEventListener('error', ({ message }) => reject(new Error(message)))
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
    worker.postMessage({ investigation, links })
  }).finally(() => worker.terminate())
}
