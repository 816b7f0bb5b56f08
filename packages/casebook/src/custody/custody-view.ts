import type { InvestigationState } from '../state/investigation-state.ts'
import { type ChainLine, chainLines } from './chain-lines.ts'
import { custodyDoubts } from './doubts.ts'
import { holderOf, waitingHandOver, type Worker } from './holder.ts'
import { originOf } from './origin.ts'
import { type SampleCustody, sampleCustody } from './sample-custody.ts'
import type { Consignment } from './state.ts'
import { type TransportTemperature, transportTemperature } from './transport-temperature.ts'

export interface ConsignmentView {
  readonly code: string
  readonly container: string
  readonly stage: 'being packed' | 'sealed' | 'on its way' | 'received' | 'with the other party'
  readonly samples: readonly SampleCustody[]
  /** who answers for it now: the last to take it over, at first the one who opened it */
  readonly holder: Worker
  /** the hand-over the receiver has still to accept on their own device */
  readonly waiting: { readonly id: string; readonly to: Worker; readonly device: string } | undefined
  readonly seal: string | undefined
  readonly chain: readonly ChainLine[]
  readonly temperature: TransportTemperature
  /** the sample whose hold time ends first, among those still running */
  readonly next: SampleCustody | undefined
  readonly laboratory: string | undefined
  /** seals found open or broken on the way */
  readonly sealProblems: number
  /** what does not fit in what was written of it, in words */
  readonly doubts: readonly string[]
}

export interface CustodyView {
  readonly consignments: readonly ConsignmentView[]
  /** collected, and in no consignment */
  readonly loose: readonly SampleCustody[]
  /** what the laboratory did not simply accept */
  readonly exceptions: readonly SampleCustody[]
  /** samples that reached the laboratory after their hold time, or are past it on the way */
  readonly late: readonly SampleCustody[]
  /** parts of samples divided for others */
  readonly splits: readonly SampleCustody[]
}

/** Which samples are where, who holds them, how long they have left, how warm they got and how they arrived. */
export function custodyView(state: InvestigationState, nowMs: number): CustodyView {
  const samples = [...state.fieldwork.samples.values()]
    .filter(({ body }) => body.sampleKind !== 'readings-only')
    .map((sample) => sampleCustody(state, { sample, nowMs }))
  const splits = [...state.custody.splits.values()].flatMap((split) => {
    const origin = originOf(state, split.body.split)
    return origin === undefined ? [] : [sampleCustody(state, { sample: origin.sample, split, nowMs })]
  })
  const byLabel = new Map([...samples, ...splits].map((sample) => [sample.label, sample]))
  return {
    consignments: [...state.custody.consignments.values()].map((box) =>
      consignmentView(
        box,
        [...box.labels].flatMap((label) => byLabel.get(label) ?? []),
      ),
    ),
    loose: [...samples, ...splits].filter(({ consignment, examined }) => consignment === undefined && !examined),
    exceptions: samples.filter(({ condition }) => condition !== undefined && condition !== 'accepted'),
    late: samples.filter(({ clock }) => clock === 'over' || clock === 'stopped late'),
    splits,
  }
}

function consignmentView(box: Consignment, samples: readonly SampleCustody[]): ConsignmentView {
  const running = samples.filter(({ clock }) => clock === 'running' || clock === 'over')
  const handed = holderOf(box)
  const waiting = waitingHandOver(box)
  return {
    code: box.code,
    container: box.opened.body.container,
    stage: stageOf(box, { handed: handed !== undefined, samples }),
    samples,
    holder: box.received?.body.receivedBy ?? handed ?? { name: box.opened.author, role: 'opened it' },
    waiting:
      waiting?.body.signedBy?.way === 'device'
        ? { id: waiting.id, to: waiting.body.to, device: waiting.body.signedBy.device }
        : undefined,
    seal: box.seal?.body.seal,
    chain: chainLines(box),
    temperature: transportTemperature(box, samples),
    next: running.sort((a, b) => (a.deadlineMs ?? 0) - (b.deadlineMs ?? 0))[0],
    laboratory: box.received?.body.laboratory,
    sealProblems: box.events.filter(({ body }) => 'sealIntact' in body && !body.sealIntact).length,
    doubts: custodyDoubts(box),
  }
}

function stageOf(
  box: Consignment,
  { handed, samples }: { handed: boolean; samples: readonly SampleCustody[] },
): ConsignmentView['stage'] {
  if (box.received !== undefined) return 'received'
  if (handed)
    return samples.length > 0 && samples.every(({ splitOf }) => splitOf !== undefined)
      ? 'with the other party'
      : 'on its way'
  return box.seal === undefined ? 'being packed' : 'sealed'
}

/** The hold time that ends first, of what is still on its way: in a consignment, or collected and packed nowhere. */
export function nextHoldDeadline(
  state: InvestigationState,
  nowMs: number,
): { about: string; deadlineMs: number; leftMs: number } | undefined {
  const { consignments, loose } = custodyView(state, nowMs)
  const running = [
    ...consignments.flatMap(({ code, next }) => (next === undefined ? [] : [{ about: code, sample: next }])),
    ...loose.map((sample) => ({ about: `${sample.label}, not packed`, sample })),
  ]
  return running
    .flatMap(({ about, sample: { deadlineMs, leftMs } }) =>
      deadlineMs === undefined || leftMs === undefined ? [] : [{ about, deadlineMs, leftMs }],
    )
    .sort((a, b) => a.deadlineMs - b.deadlineMs)[0]
}
