import { useSyncExternalStore } from 'react'
import { useInvestigation } from '../store/investigation.tsx'
import type { Job, JobMessage } from './prediction-jobs.ts'
import { type BeginApart, type RunState, WorkerRun } from './worker-run.ts'

const runs = new Map<string, WorkerRun<Job['kind']>>()

/** The run of one kind in this investigation, with the state it is in; the same wherever it is looked at. */
export function useWorkerRun<K extends Job['kind']>(
  kind: K,
): { readonly run: WorkerRun<K>; readonly state: RunState<K> } {
  const { id } = useInvestigation()
  const key = `${id} ${kind}`
  const known = runs.get(key) ?? new WorkerRun<Job['kind']>(inWorker)
  runs.set(key, known)
  const run = known as unknown as WorkerRun<K>
  return { run, state: useSyncExternalStore(run.subscribe, run.snapshot) }
}

const inWorker: BeginApart = (job, told) => {
  const worker = new Worker(new URL('./predict.worker.ts', import.meta.url), { type: 'module' })
  worker.addEventListener('message', ({ data }: MessageEvent<JobMessage>) => told(data))
  worker.addEventListener('error', ({ message }) => told({ failed: message }))
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
  worker.postMessage(job)
  return () => worker.terminate()
}
