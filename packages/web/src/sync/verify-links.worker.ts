import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { Expectation } from '@rillmark/casebook/chain/verify.ts'
import { verifyQuickly } from './verify-quickly.ts'

/** Walks links away from the screen, so that a long record never stops typing. */
self.addEventListener(
  'message',
  ({ data }: MessageEvent<{ readonly expected: Expectation; readonly links: readonly Link[] }>) => {
    void verifyQuickly(data.links, data.expected).then((verdict) => {
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
      self.postMessage(verdict)
    })
  },
)
