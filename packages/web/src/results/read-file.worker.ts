import { readTable } from '@rillmark/exchange/results/read-table.ts'

/** Reads a laboratory's file away from the screen, so that a large one never stops typing. */
self.addEventListener('message', ({ data }: MessageEvent<{ name: string; bytes: Uint8Array }>) => {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
  void readTable(data).then((reading) => self.postMessage(reading))
})
