import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { expect, test } from 'vitest'
import type { Job, JobMessage } from './prediction-jobs.ts'
import { WorkerRun } from './worker-run.ts'

interface Begun {
  readonly job: Job
  readonly tells: (message: JobMessage) => void
  ended: boolean
}

const job = { kind: 'predict', system: {} as WaterSystem, seed: 1, systemEntry: 'e1' } as const

function started() {
  const begun: Begun[] = []
  const run = new WorkerRun<'predict'>((asked, tells) => {
    const one: Begun = { job: asked, tells, ended: false }
    begun.push(one)
    return () => {
      one.ended = true
    }
  })
  const heard: string[] = []
  run.subscribe(() => heard.push(run.snapshot().kind))
  run.start(job)
  const [first] = begun
  if (first === undefined) throw new Error('nothing was begun')
  return { run, begun, heard, first }
}

test('a run tells how far it is and what it came to, and lets its worker go', () => {
  const { run, first, heard } = started()
  expect(first.job).toEqual(job)
  first.tells({ fraction: 0.4 })
  expect(run.snapshot()).toEqual({ kind: 'running', job, fraction: 0.4 })
  const answer = { kind: 'cannot-say' as const, reasons: [] }
  first.tells({ answer })
  expect(run.snapshot()).toEqual({ kind: 'done', job, answer })
  expect(first.ended).toBe(true)
  expect(heard).toEqual(['running', 'running', 'done'])
})

test('a run can be stopped, fails in words, and gives way to the next', () => {
  const { run, begun, first } = started()
  run.stop()
  expect(run.snapshot()).toEqual({ kind: 'stopped', job })
  expect(first.ended).toBe(true)
  run.start(job)
  begun[1]?.tells({ failed: 'no memory' })
  expect(run.snapshot()).toEqual({ kind: 'stopped', job, failed: 'no memory' })
  run.start(job)
  run.start(job)
  expect(begun.map(({ ended }) => ended)).toEqual([true, true, true, false])
  run.stop()
  expect(begun.every(({ ended }) => ended)).toBe(true)
})
