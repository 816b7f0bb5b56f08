// Makes heavy documents beside the server's main thread, from the same data folder.
import { parentPort, workerData } from 'node:worker_threads'
import { openData } from '../data/open-data.ts'
import { makeDocument } from './make-document.ts'
import { DOCUMENTS } from './registry.ts'
import type { WorkerAnswer, WorkerRequest } from './worker-messages.ts'

const { folder } = workerData as { folder: string }
const data = openData(folder)

parentPort?.on('message', (request: WorkerRequest) => {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker thread has no origin
  void answer(request).then((reply) => parentPort?.postMessage(reply))
})

async function answer({ job, name, investigation, query }: WorkerRequest): Promise<WorkerAnswer> {
  try {
    const kind = await DOCUMENTS[name]?.()
    if (kind === undefined) throw new RangeError(`Cannot make a document because there is no such kind: got ${name}`)
    const made = await makeDocument(
      { kind, investigation, query },
      {
        links: (id) => data.records.links(id),
        attachment: async (sha256) => (await data.attachments.read(sha256))?.bytes,
        folder,
      },
    )
    return { job, made }
  } catch (error) {
    return { job, failed: error instanceof Error ? (error.stack ?? error.message) : String(error) }
  }
}
