import type { InvestigationState } from '../state/investigation-state.ts'
import { type ChainLine, chainLines } from './chain-lines.ts'
import { holderOf } from './rules.ts'
import { type SampleCustody, sampleCustody } from './sample-custody.ts'
import type { Consignment } from './state.ts'
import { type TransportTemperature, transportTemperature } from './transport-temperature.ts'

export interface ConsignmentView {
  readonly code: string
  readonly container: string
  readonly stage: 'being packed' | 'sealed' | 'on its way' | 'received'
  readonly samples: readonly SampleCustody[]
  /** who answers for it now: the last to take it over, at first the one who opened it */
  readonly holder: { readonly name: string; readonly role: string }
  readonly seal: string | undefined
  readonly chain: readonly ChainLine[]
  readonly temperature: TransportTemperature
  /** the sample whose hold time ends first, among those still running */
  readonly next: SampleCustody | undefined
  readonly laboratory: string | undefined
  /** seals found open or broken on the way */
  readonly sealProblems: number
}

export interface CustodyView {
  readonly consignments: readonly ConsignmentView[]
  /** collected, and in no consignment */
  readonly loose: readonly SampleCustody[]
  /** what the laboratory did not simply accept */
  readonly exceptions: readonly SampleCustody[]
  /** samples that reached the laboratory after their hold time, or are past it on the way */
  readonly late: readonly SampleCustody[]
}

/** Which samples are where, who holds them, how long they have left, how warm they got and how they arrived. */
export function custodyView(state: InvestigationState, nowMs: number): CustodyView {
  const samples = [...state.fieldwork.samples.values()]
    .filter(({ body }) => body.sampleKind !== 'readings-only')
    .map((sample) => sampleCustody(state, { sample, nowMs }))
  const byLabel = new Map(samples.map((sample) => [sample.label, sample]))
  return {
    consignments: [...state.custody.consignments.values()].map((box) =>
      consignmentView(
        box,
        [...box.labels].flatMap((label) => byLabel.get(label) ?? []),
      ),
    ),
    loose: samples.filter(({ consignment, examined }) => consignment === undefined && !examined),
    exceptions: samples.filter(({ condition }) => condition !== undefined && condition !== 'accepted'),
    late: samples.filter(({ clock }) => clock === 'over' || clock === 'stopped late'),
  }
}

function consignmentView(box: Consignment, samples: readonly SampleCustody[]): ConsignmentView {
  const running = samples.filter(({ clock }) => clock === 'running' || clock === 'over')
  const handed = holderOf(box)
  return {
    code: box.code,
    container: box.opened.body.container,
    stage: stageOf(box, handed !== undefined),
    samples,
    holder: box.received?.body.receivedBy ?? handed ?? { name: box.opened.author, role: 'opened it' },
    seal: box.seal?.body.seal,
    chain: chainLines(box),
    temperature: transportTemperature(box, samples),
    next: running.sort((a, b) => (a.deadlineMs ?? 0) - (b.deadlineMs ?? 0))[0],
    laboratory: box.received?.body.laboratory,
    sealProblems: box.events.filter(({ body }) => 'sealIntact' in body && !body.sealIntact).length,
  }
}

function stageOf(box: Consignment, handed: boolean): ConsignmentView['stage'] {
  if (box.received !== undefined) return 'received'
  if (handed) return 'on its way'
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
