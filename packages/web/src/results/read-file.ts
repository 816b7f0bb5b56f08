import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { issue } from '@rillmark/science/catalogue/issue.ts'
import type { TableReading } from '@rillmark/exchange/results/table-limits.ts'

export interface ReadFile {
  readonly name: string
  readonly sha256: string
  readonly reading: TableReading
}

/** Bytes, fingerprint and tables of a file. A reader that runs far too long is stopped and the file refused. */
export async function readFile(file: File, stop: AbortSignal): Promise<ReadFile> {
  const bytes = new Uint8Array(await file.arrayBuffer())
  const sha256 = sha256OfBytes(bytes)
  return { name: file.name, sha256, reading: await readApart({ name: file.name, bytes }, stop) }
}

const PATIENCE_MS = 60_000

function readApart(message: { name: string; bytes: Uint8Array }, stop: AbortSignal): Promise<TableReading> {
  const worker = new Worker(new URL('./read-file.worker.ts', import.meta.url), { type: 'module' })
  return new Promise((resolve) => {
    const settle = (reading: TableReading): void => {
      clearTimeout(timer)
      worker.terminate()
      resolve(reading)
    }
    const refuse = (received: string): void =>
      settle({ ok: false, issues: [issue('file', { expected: 'a CSV or XLSX file that can be read', received })] })
    const timer = setTimeout(() => refuse('one that takes too long to read'), PATIENCE_MS)
    stop.addEventListener('abort', () => refuse('reading stopped'))
    worker.addEventListener('message', ({ data }: MessageEvent<TableReading>) => settle(data))
    worker.addEventListener('error', () => refuse('one the reader failed on'))
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
    worker.postMessage(message)
  })
}
