import { DEVIATION_REASONS } from '@rillmark/casebook/fieldwork/kinds.ts'
import { type Task, tasksFor } from '@rillmark/casebook/fieldwork/guided-steps.ts'
import { expect, it } from 'vitest'
import { consequenceOf, reasonsFor } from './cant-do.ts'

const tasks = tasksFor([{ sampleKind: 'first-flush-swab', procedure: 'shower', circuit: 'hot', label: 'L1' }], {
  residual: 'total-chlorine',
})
const at = (name: string) => {
  const task: Task | undefined = tasks.find((one) => one.name === name)
  if (task === undefined) throw new Error(name)
  return { ...task, state: 'current' as const }
}

it.each([
  ['open-head', 'fitting could not be removed', 'step left out'],
  ['open-head', 'no access', 'sample left out'],
  ['first-water', 'other', 'sample left out'],
  ['first-water', 'already running on arrival', 'noted'],
  ['swab-neutralizer', 'neutralizer missing or short', 'noted'],
  ['ask', 'no access', 'step left out'],
  ['hot:temperature-curve-hot', 'instrument out of range', 'step left out'],
] as const)('%s, %s: %s', (step, reason, want) => expect(consequenceOf(at(step), reason)).toBe(want))

it('every reason can be reached at some step, and "other" stands last at each', () => {
  const offered = new Set(tasks.flatMap((task) => reasonsFor({ ...task, state: 'current' })))
  expect([...offered].sort()).toEqual([...DEVIATION_REASONS].sort())
  for (const task of tasks) expect(reasonsFor({ ...task, state: 'current' }).at(-1)).toBe('other')
})
