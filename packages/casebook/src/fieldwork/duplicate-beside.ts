import type { PlannedSample } from '../plan/plan-file.ts'
import type { Task } from './guided-steps.ts'

/**
 * Puts each thing done for a duplicate right after the same thing done for the sample it repeats: both bottles are made ready, then both
 * filled from the same flow, then both labelled. What the first has no step like comes when the first is done.
 */
export function duplicatesBeside(tasks: readonly Task[]): readonly Task[] {
  const [second, others] = [tasks.filter(isOfDuplicate), tasks.filter((task) => !isOfDuplicate(task))]
  return second.reduce<readonly Task[]>((placed, task) => inserted(placed, task), others)
}

const isOfDuplicate = ({ sample, procedure }: Task): boolean =>
  sample?.sampleKind === 'duplicate' || procedure === 'duplicate'

function inserted(tasks: readonly Task[], task: Task): readonly Task[] {
  const first = tasks.findLastIndex(
    (other) => other.step.kind === task.step.kind && other.sample !== undefined && isFirstOf(task.sample, other.sample),
  )
  const mine = tasks.findLastIndex(isOfDuplicate)
  const after = first === -1 ? Math.max(mine, lastOfFirst(tasks, task)) : first
  if (after === -1) return [...tasks, task]
  return [...tasks.slice(0, after + 1), task, ...tasks.slice(after + 1)]
}

const lastOfFirst = (tasks: readonly Task[], { sample }: Task): number =>
  tasks.findLastIndex((other) => other.sample !== undefined && isFirstOf(sample, other.sample))

const isFirstOf = (duplicate: PlannedSample | undefined, { label, sampleKind }: PlannedSample): boolean =>
  duplicate?.repeats !== undefined && (duplicate.repeats === label || duplicate.repeats === sampleKind)
