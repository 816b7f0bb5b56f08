// The page inside every package. The same script runs in the page and, so that the page stays awake, in a worker made of itself.
import { startPage } from './page.ts'
import { runVerification } from './run.ts'
import type { VerifyRequest } from './messages.ts'

if (typeof document === 'undefined')
  globalThis.addEventListener('message', (event: MessageEvent<VerifyRequest>) => {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin
    void runVerification(event.data, (told) => globalThis.postMessage(told))
  })
else startPage(document.currentScript?.textContent ?? '')
