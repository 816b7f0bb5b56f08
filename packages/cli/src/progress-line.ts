import type { CommandIo } from './command.ts'

/** Less than this is not worth a line; after it the line is renewed as often. */
const PAUSE_MS = 250

/**
 * How far long work is, on one line of a watched terminal that is renewed in place and wiped at the end. Elsewhere nothing is written,
 * so that a file of errors holds errors only.
 *
 * @param io where to write; `nowMs` is the time, told for tests
 */
export function progressLine(io: CommandIo, nowMs: () => number = () => performance.now()) {
  if (io.watched !== true) return { progress: undefined, done: () => undefined }
  let shown = false
  let last = nowMs()
  return {
    progress: (fraction: number): void => {
      if (nowMs() - last < PAUSE_MS) return
      last = nowMs()
      shown = true
      io.err(`\r${Math.floor(fraction * 100)} % done, Ctrl-C to stop`)
    },
    done: (): void => {
      if (shown) io.err('\r\u001b[K')
    },
  }
}
