import type { Answers, Job, JobMessage } from './prediction-jobs.ts'

type JobOf<K extends Job['kind']> = Extract<Job, { kind: K }>

/** Where a long run stands. */
export type RunState<K extends Job['kind']> =
  | { readonly kind: 'none' }
  | { readonly kind: 'running'; readonly job: JobOf<K>; readonly fraction: number }
  | { readonly kind: 'stopped'; readonly job: JobOf<K>; readonly failed?: string }
  | { readonly kind: 'done'; readonly job: JobOf<K>; readonly answer: Answers[K] }

/** Begins a job away from the screen, tells what it hears of it, and gives back how to end it. */
export type BeginApart = (job: Job, told: (message: JobMessage) => void) => () => void

/**
 * One long run in a worker at a time. It lives outside any screen, so that looking elsewhere neither stops it nor loses what it found; a
 * new start takes the place of the one before.
 */
export class WorkerRun<K extends Job['kind']> {
  #state: RunState<K> = { kind: 'none' }
  #stop: (() => void) | undefined
  readonly #begin: BeginApart
  readonly #listeners = new Set<() => void>()

  constructor(begin: BeginApart) {
    this.#begin = begin
  }

  readonly snapshot = (): RunState<K> => this.#state

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }

  start(job: JobOf<K>): void {
    this.#end()
    this.#now({ kind: 'running', job, fraction: 0 })
    this.#stop = this.#begin(job, (data) => {
      if ('fraction' in data) return this.#now({ kind: 'running', job, fraction: data.fraction })
      this.#end()
      this.#now(
        'failed' in data
          ? { kind: 'stopped', job, failed: data.failed }
          : { kind: 'done', job, answer: data.answer as Answers[K] },
      )
    })
  }

  stop(): void {
    if (this.#state.kind !== 'running') return
    this.#end()
    this.#now({ kind: 'stopped', job: this.#state.job })
  }

  #end(): void {
    this.#stop?.()
    this.#stop = undefined
  }

  #now(state: RunState<K>): void {
    this.#state = state
    for (const listener of this.#listeners) listener()
  }
}
