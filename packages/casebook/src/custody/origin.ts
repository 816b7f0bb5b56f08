import type { EffectiveEntry } from '../state/effective.ts'
import type { Worker } from './holder.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** What a label stands for: the sample as collected, and the split where it is a part of one. */
export interface Origin {
  readonly sample: EffectiveEntry<'sample.collected'>
  readonly split: EffectiveEntry<'sample.split'> | undefined
}

/** The collected sample behind a label: its own, or the one it was split from, however often. */
export function originOf(state: InvestigationState, label: string): Origin | undefined {
  const split = state.custody.splits.get(label)
  const seen = new Set<string>()
  for (let at = label; !seen.has(at); ) {
    seen.add(at)
    const sample = state.fieldwork.samples.get(at)
    if (sample !== undefined) return { sample, split }
    at = state.custody.splits.get(at)?.body.label ?? at
  }
  return undefined
}

/** Of a part: the collected sample it came from, however often that was divided, and for whom the part was made. */
export function partOf(state: InvestigationState, label: string): { label: string; to: Worker } | undefined {
  const { sample, split } = originOf(state, label) ?? {}
  return sample === undefined || split === undefined ? undefined : { label: sample.body.label, to: split.body.to }
}

/** The labels of all parts divided from a sample, those divided again too, in the order they were made. */
export function partsOf(state: InvestigationState, label: string): string[] {
  return [...state.custody.splits.keys()].filter((part) => part !== label && partOf(state, part)?.label === label)
}

/** Water of a sample or part that was not given away; undefined where its volume is not known. */
export function volumeLeftMl(
  state: InvestigationState,
  { label, besides }: { label: string; besides?: string | undefined },
): number | undefined {
  const own = state.custody.splits.get(label)?.body.volumeMl ?? state.fieldwork.samples.get(label)?.body.volumeMl
  if (own === undefined) return undefined
  return [...state.custody.splits.values()]
    .filter(({ id, body }) => body.label === label && id !== besides)
    .reduce((left, { body }) => left - body.volumeMl, own)
}
