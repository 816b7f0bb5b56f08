import { Worker } from 'node:worker_threads'
import {
  type CalculationAnswer,
  type CalculationRefusal,
  type CalculationRequest,
} from '@rillmark/science/catalogue/catalogue.ts'
import { Problem, problem } from '../http/problem.ts'

export interface ThreadLimits {
  /** A run still going after this is ended. */
  readonly patienceMs: number
  /** Runs that may wait behind the one under way. */
  readonly mostWaiting: number
}

type Answer = CalculationAnswer | CalculationRefusal

const LIMITS: ThreadLimits = { patienceMs: 60_000, mostWaiting: 8 }
/** The answer of the largest run allowed fits many times over. */
const MEMORY_MB = 512

/** Long calculations, one after another on a thread of their own, so that they hold nobody else up. */
export class CalculationThread {
  readonly #limits: ThreadLimits
  #last: Promise<unknown> = Promise.resolve()
  #held = 0

  constructor(limits: ThreadLimits = LIMITS) {
    this.#limits = limits
  }

  /**
   * @param request id and input
   * @param gone aborts when nobody waits for the answer any more
   * @throws Problem when too many wait, or the run takes too long or too much
   */
  async run(request: CalculationRequest, gone: AbortSignal): Promise<Answer> {
    if (this.#held > this.#limits.mostWaiting) throw busy()
    this.#held += 1
    const mine = this.#last.then(() => (gone.aborted ? Promise.reject(stopped()) : this.#apart(request, gone)))
    this.#last = mine.catch(() => undefined)
    try {
      return await mine
    } finally {
      this.#held -= 1
    }
  }

  #apart(request: CalculationRequest, gone: AbortSignal): Promise<Answer> {
    const worker = new Worker(new URL('worker.ts', import.meta.url), {
      workerData: { id: request.id, input: request.input },
      resourceLimits: { maxOldGenerationSizeMb: MEMORY_MB },
    })
    const { patienceMs } = this.#limits
    const ended = new Promise<Answer>((resolve, reject) => {
      const timer = setTimeout(() => reject(tooLong(patienceMs)), patienceMs)
      gone.addEventListener('abort', () => reject(stopped()), { once: true })
      worker.on('message', resolve)
      worker.on('error', (error) => reject(outOfMemory(error) ? tooMuch() : error))
      worker.on('exit', () => {
        clearTimeout(timer)
        reject(new Error('the worker that calculates ended'))
      })
    })
    return ended.finally(() => worker.terminate())
  }
}

const RATHER = 'rillmark calc runs it without this limit'

function tooLong(patienceMs: number): Problem {
  return problem(422, {
    expected: `a calculation that ends within ${patienceMs / 1000} s (${RATHER})`,
    received: 'one that takes longer',
  })
}

function tooMuch(): Problem {
  return problem(422, {
    expected: `a calculation that needs less than ${MEMORY_MB} MB (${RATHER})`,
    received: 'one that needs more',
  })
}

function busy(): Problem {
  return problem(503, { expected: 'fewer long calculations at a time', received: 'one more; try again soon' })
}

function stopped(): Problem {
  return problem(422, { expected: 'somebody who waits for the answer', received: 'a connection that was closed' })
}

function outOfMemory(error: unknown): boolean {
  return error instanceof Error && Reflect.get(error, 'code') === 'ERR_WORKER_OUT_OF_MEMORY'
}
