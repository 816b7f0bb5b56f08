import type { Circuit, SampleKind } from '../entry/fields.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { Worker } from '../custody/holder.ts'
import { partOf } from '../custody/origin.ts'
import { localDate } from '../units/local-time.ts'
import { given } from '../entry/given.ts'

/** A sample a result may belong to, by its label. */
export interface KnownSample {
  readonly label: string
  readonly origin: 'planned' | 'collected' | 'part of a sample' | 'taken by others'
  /** of a part: the sample it was divided from, and for whom */
  readonly partOf?: { readonly label: string; readonly to: Worker }
  readonly collectedOn?: string
  readonly component?: string
  readonly circuit?: Circuit
  readonly sampleKind?: SampleKind
  readonly round?: string
  readonly stop?: string
  /** what the laboratory noted when the sample came in, if it was not simply accepted */
  readonly condition?: string
}

/** Every label of the record: planned, collected, divided from one collected, and taken by others. */
export function knownSamples(state: InvestigationState): Map<string, KnownSample> {
  const known = new Map<string, KnownSample>()
  for (const { body } of state.plan.rounds.values())
    for (const stop of body.plan.stops)
      for (const { label, sampleKind, circuit } of stop.samples)
        if (label !== undefined)
          known.set(label, {
            label,
            origin: 'planned',
            sampleKind,
            round: body.round,
            stop: stop.id,
            ...given({ circuit, component: stop.component }),
          })
  for (const entry of state.fieldwork.samples.values()) {
    const { label, sampleKind, circuit, component, round, stop } = entry.body
    const planned = known.get(label)
    known.set(label, {
      ...planned,
      label,
      origin: 'collected',
      sampleKind,
      round,
      stop,
      collectedOn: localDate(entry),
      ...given({ circuit, component }),
    })
  }
  for (const { body } of state.custody.splits.values()) {
    const part = partOf(state, body.split)
    const whole = part === undefined ? undefined : known.get(part.label)
    if (part !== undefined && whole !== undefined)
      known.set(body.split, { ...whole, label: body.split, origin: 'part of a sample', partOf: part })
  }
  for (const { body } of state.results.registered.values()) {
    const { label, collectedOn, component, circuit, sampleKind } = body
    if (!known.has(label))
      known.set(label, { label, origin: 'taken by others', ...given({ collectedOn, component, circuit, sampleKind }) })
  }
  for (const [label, condition] of conditionsAtReceipt(state)) {
    const sample = known.get(label)
    if (sample !== undefined) known.set(label, { ...sample, condition })
  }
  return known
}

/** Labels whose condition the laboratory noted at its door. */
function conditionsAtReceipt(state: InvestigationState): Map<string, string> {
  const conditions = new Map<string, string>()
  for (const { received } of state.custody.consignments.values())
    for (const { label, condition } of received?.body.samples ?? [])
      if (condition !== 'accepted') conditions.set(label, condition)
  return conditions
}
