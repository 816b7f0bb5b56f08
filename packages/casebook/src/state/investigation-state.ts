import { type BriefState, briefAppliers, emptyBrief } from '../brief/state.ts'
import { type BuildingState, buildingAppliers, emptyBuilding } from '../building/state.ts'
import { type CasesState, casesAppliers, emptyCases } from '../cases/state.ts'
import { type ContestsState, contestsAppliers, emptyContests } from '../contests/state.ts'
import { type ControlState, controlAppliers, emptyControl } from '../control/state.ts'
import { type CustodyState, custodyAppliers, emptyCustody } from '../custody/state.ts'
import { type DevicesState, devicesAppliers, emptyDevices } from '../devices/state.ts'
import type { Kind } from '../entry/kinds.ts'
import { KINDS } from '../entry/kinds.ts'
import { emptyFieldwork, type FieldworkState, fieldworkAppliers } from '../fieldwork/state.ts'
import { emptyFindings, type FindingsState, findingsAppliers } from '../findings/state.ts'
import { emptyFollowUp, type FollowUpState, followUpAppliers } from '../follow-up/state.ts'
import { emptyPlan, type PlanState, planAppliers } from '../plan/state.ts'
import { emptyRecord, type RecordState } from '../record/state.ts'
import { emptyReport, type ReportState, reportAppliers } from '../report/state.ts'
import { emptyResults, type ResultsState, resultsAppliers } from '../results/state.ts'
import type { Appliers, EffectiveEntry } from './effective.ts'

/** Everything derived from one investigation's record. Never stored: it follows from the entries. */
export interface InvestigationState {
  readonly investigation: string
  readonly record: RecordState
  readonly brief: BriefState
  readonly cases: CasesState
  readonly building: BuildingState
  readonly plan: PlanState
  readonly fieldwork: FieldworkState
  readonly custody: CustodyState
  readonly results: ResultsState
  readonly findings: FindingsState
  readonly control: ControlState
  readonly followUp: FollowUpState
  readonly report: ReportState
  readonly devices: DevicesState
  readonly contests: ContestsState
}

/** The parts that steps collect; the record itself is filed. */
export type Step = Exclude<keyof InvestigationState, 'investigation' | 'record'>

type Collecting = { readonly [S in Step]: readonly [() => InvestigationState[S], Appliers<InvestigationState[S]>] }

const STEPS: Collecting = {
  brief: [emptyBrief, briefAppliers],
  cases: [emptyCases, casesAppliers],
  building: [emptyBuilding, buildingAppliers],
  plan: [emptyPlan, planAppliers],
  fieldwork: [emptyFieldwork, fieldworkAppliers],
  custody: [emptyCustody, custodyAppliers],
  results: [emptyResults, resultsAppliers],
  findings: [emptyFindings, findingsAppliers],
  control: [emptyControl, controlAppliers],
  followUp: [emptyFollowUp, followUpAppliers],
  report: [emptyReport, reportAppliers],
  devices: [emptyDevices, devicesAppliers],
  contests: [emptyContests, contestsAppliers],
}

export const COLLECTING_STEPS = Object.keys(STEPS) as readonly Step[]

export function emptyState(investigation: string): InvestigationState {
  const parts = Object.fromEntries(Object.entries(STEPS).map(([step, [empty]]) => [step, empty()]))
  return { investigation, record: emptyRecord(), ...(parts as unknown as Pick<InvestigationState, Step>) }
}

type Apply = (part: unknown, entry: EffectiveEntry) => void

/** Who collects a kind, and how. */
const COLLECTOR: ReadonlyMap<Kind, { readonly step: Step; readonly apply: Apply }> = new Map(
  Object.entries(STEPS).flatMap(([step, [, appliers]]) =>
    Object.entries(appliers).map(([kind, apply]) => [kind as Kind, { step: step as Step, apply: apply as Apply }]),
  ),
)

/** The step that owns a kind; undefined for what no step collects. */
export function stepOf(kind: Kind): Step | undefined {
  return COLLECTOR.get(kind)?.step
}

/** Lets the step that owns an entry's kind collect it. */
export function applyEffective(state: InvestigationState, entry: EffectiveEntry): void {
  const collector = COLLECTOR.get(entry.kind)
  collector?.apply(state[collector.step], entry)
}

/** Kinds no step collects (withdrawals act through the record itself). */
export const UNCOLLECTED: readonly Kind[] = (Object.keys(KINDS) as Kind[]).filter((kind) => !COLLECTOR.has(kind))
