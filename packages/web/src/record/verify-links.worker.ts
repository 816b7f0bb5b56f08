import type { Link } from '@rillmark/casebook/chain/link.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'

/** Walks the chain away from the screen, so that a long record never stops typing. */
self.addEventListener('message', ({ data }: MessageEvent<{ investigation: string; links: readonly Link[] }>) => {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
  self.postMessage(verifyChain(data.links, { investigation: data.investigation, checkSignature }))
})
