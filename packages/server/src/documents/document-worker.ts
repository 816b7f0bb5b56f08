import { Worker } from 'node:worker_threads'
import type { Made } from './document-kind.ts'
import type { WorkerAnswer, WorkerRequest } from './worker-messages.ts'

interface Waiting {
  readonly resolve: (made: Made) => void
  readonly reject: (error: Error) => void
}

/** One worker thread for heavy documents, started when the first is asked for and again if it dies. */
export class DocumentWorker {
  readonly #folder: string
  readonly #waiting = new Map<number, Waiting>()
  #worker: Worker | undefined
  #jobs = 0

  constructor(folder: string) {
    this.#folder = folder
  }

  make(request: Omit<WorkerRequest, 'job'>): Promise<Made> {
    const job = (this.#jobs += 1)
    const worker = (this.#worker ??= this.#start())
    return new Promise((resolve, reject) => {
      this.#waiting.set(job, { resolve, reject })
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker thread has no origin
      worker.postMessage({ job, ...request })
    })
  }

  async close(): Promise<void> {
    await this.#worker?.terminate()
  }

  #start(): Worker {
    const worker = new Worker(new URL('worker.ts', import.meta.url), { workerData: { folder: this.#folder } })
    worker.unref()
    worker.on('message', (answer: WorkerAnswer) => this.#settle(answer))
    worker.on('error', (error) => this.#drop(worker, error instanceof Error ? error : new Error(String(error))))
    worker.on('exit', () => this.#drop(worker, new Error('the worker that makes documents ended')))
    return worker
  }

  #settle(answer: WorkerAnswer): void {
    const waiting = this.#waiting.get(answer.job)
    this.#waiting.delete(answer.job)
    if ('made' in answer) waiting?.resolve(answer.made)
    else waiting?.reject(new Error(answer.failed))
  }

  /** A worker that died: what it owed is refused. One that died before and is gone by now owes nothing. */
  #drop(worker: Worker, error: Error): void {
    if (this.#worker !== worker) return
    this.#worker = undefined
    for (const { reject } of this.#waiting.values()) reject(error)
    this.#waiting.clear()
  }
}
