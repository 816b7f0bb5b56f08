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

export function emptyState(investigation: string): InvestigationState {
  return {
    investigation,
    record: emptyRecord(),
    brief: emptyBrief(),
    cases: emptyCases(),
    building: emptyBuilding(),
    plan: emptyPlan(),
    fieldwork: emptyFieldwork(),
    custody: emptyCustody(),
    results: emptyResults(),
    findings: emptyFindings(),
    control: emptyControl(),
    followUp: emptyFollowUp(),
    report: emptyReport(),
    devices: emptyDevices(),
    contests: emptyContests(),
  }
}

type Apply = (state: InvestigationState, entry: EffectiveEntry) => void

/** Lets the step that owns an entry's kind collect it. */
export function applyEffective(state: InvestigationState, entry: EffectiveEntry): void {
  applierOf.get(entry.kind)?.(state, entry)
}

function onto<S>(pick: (state: InvestigationState) => S, appliers: Appliers<S>): [Kind, Apply][] {
  return Object.entries(appliers).map(([kind, apply]) => {
    const collect = apply as (state: S, entry: EffectiveEntry) => void
    return [kind as Kind, (state, entry) => collect(pick(state), entry)]
  })
}

const applierOf: ReadonlyMap<Kind, Apply> = new Map([
  ...onto((state) => state.brief, briefAppliers),
  ...onto((state) => state.cases, casesAppliers),
  ...onto((state) => state.building, buildingAppliers),
  ...onto((state) => state.plan, planAppliers),
  ...onto((state) => state.fieldwork, fieldworkAppliers),
  ...onto((state) => state.custody, custodyAppliers),
  ...onto((state) => state.results, resultsAppliers),
  ...onto((state) => state.findings, findingsAppliers),
  ...onto((state) => state.control, controlAppliers),
  ...onto((state) => state.followUp, followUpAppliers),
  ...onto((state) => state.report, reportAppliers),
  ...onto((state) => state.devices, devicesAppliers),
  ...onto((state) => state.contests, contestsAppliers),
])

/** Kinds no step collects (withdrawals act through the record itself). */
export const UNCOLLECTED: readonly Kind[] = (Object.keys(KINDS) as Kind[]).filter((kind) => !applierOf.has(kind))
