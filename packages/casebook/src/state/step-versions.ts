import type { RecordState, Versions } from '../record/state.ts'
import { type Step, stepOf } from './investigation-state.ts'

/** The versions of a record by the step that collects them, each list in the order in which they are collected. */
export interface StepVersions {
  readonly of: (step: Step) => readonly Versions[]
  /** that something of another kind corrects: no rule lets it in, but a package may bring it */
  readonly mixed: boolean
}

interface Kept {
  readonly byStep: Map<Step, Versions[]>
  mixed: boolean
  /** entries gone through */
  upTo: number
}

const kept = new WeakMap<RecordState, Kept>()

/** Made when first asked, and then only of what was added since: a record grows in place by plain entries alone. */
export function stepVersions(record: RecordState): StepVersions {
  const known = kept.get(record)
  const now = known ?? { byStep: new Map<Step, Versions[]>(), mixed: false, upTo: 0 }
  kept.set(record, now)
  if (known === undefined) for (const versions of record.versions.values()) take(now, versions)
  else
    for (const { id } of record.entries.slice(now.upTo)) {
      const versions = record.versions.get(id)
      if (versions !== undefined) take(now, versions)
    }
  now.upTo = record.entries.length
  return { of: (step) => now.byStep.get(step) ?? [], mixed: now.mixed }
}

function take(now: Kept, versions: Versions): void {
  const { first, amendments } = versions
  if (amendments.some(({ kind }) => kind !== first.kind)) now.mixed = true
  const step = stepOf(first.kind)
  if (step === undefined) return
  const before = now.byStep.get(step)
  if (before === undefined) now.byStep.set(step, [versions])
  else before.push(versions)
}
