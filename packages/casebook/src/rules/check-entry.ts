import { briefRules } from '../brief/rules.ts'
import { buildingRules } from '../building/rules.ts'
import { fitRules } from '../calibration/fit-rules.ts'
import { casesRules } from '../cases/rules.ts'
import { predictionRules } from '../conditions/prediction-rules.ts'
import { contestsRules } from '../contests/rules.ts'
import { standingIssues } from '../contests/standing-issues.ts'
import { controlRules } from '../control/rules.ts'
import { custodyRules } from '../custody/rules.ts'
import { deviceIssues, devicesRules } from '../devices/rules.ts'
import type { Entry } from '../entry/entry.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { issue } from '@rillmark/science/catalogue/issue.ts'
import type { Kind } from '../entry/kinds.ts'
import { parseEntry } from '../entry/parse-entry.ts'
import { fieldworkRules } from '../fieldwork/rules.ts'
import { findingsRules } from '../findings/rules.ts'
import { followUpRules } from '../follow-up/rules.ts'
import { planRules } from '../plan/rules.ts'
import { amendmentIssues } from '../record/rules.ts'
import { reportRules } from '../report/rules.ts'
import { resultsRules } from '../results/rules.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { Rule, Rules } from './rule.ts'

/** All rules of all steps. An entry goes in when its shape is right, its amendment points right, and no rule of its kind objects. */
const RULES: Rules = joined(
  briefRules,
  casesRules,
  buildingRules,
  predictionRules,
  fitRules,
  planRules,
  fieldworkRules,
  custodyRules,
  resultsRules,
  findingsRules,
  controlRules,
  followUpRules,
  reportRules,
  devicesRules,
  contestsRules,
)

/** Why an entry may not join, and what kind of objection it was: its shape, who writes it, or what the record already says. */
export type Checked =
  | { readonly ok: true; readonly entry: Entry }
  | { readonly ok: false; readonly issues: readonly Issue[]; readonly by: 'shape' | 'writer' | 'record' }

/** Decides whether an entry may join a record with the given state. All issues at once; never throws on bad data. */
export function checkEntry(state: InvestigationState, candidate: unknown): Checked {
  const parsed = parseEntry(candidate)
  return parsed.ok ? judgeEntry(state, parsed.entry) : { ...parsed, by: 'shape' }
}

/** The same for an entry whose shape was found sound. */
export function judgeEntry(state: InvestigationState, entry: Entry): Checked {
  if (entry.investigation !== state.investigation) {
    const { investigation: received } = entry
    return { ok: false, issues: [issue('investigation', { expected: state.investigation, received })], by: 'shape' }
  }
  const writer = deviceIssues(entry, state)
  if (writer.length > 0) return { ok: false, issues: writer, by: 'writer' }
  const issues = recordIssues(state, entry)
  return issues.length === 0 ? { ok: true, entry } : { ok: false, issues, by: 'record' }
}

/** What the record as it stands says against an entry of sound shape. */
export function recordIssues(state: InvestigationState, entry: Entry): readonly Issue[] {
  const amendment = amendmentIssues(entry, state)
  if (amendment.length > 0) return amendment
  const amends = entry.corrects === undefined ? undefined : state.record.firstOf.get(entry.corrects.entry)
  const rules = (RULES[entry.kind] ?? []) as readonly Rule<Kind>[]
  const issues = rules.flatMap((rule) => rule(entry as Parameters<Rule<Kind>>[0], { state, amends }))
  return issues.length === 0 && entry.kind === 'contest.settled'
    ? standingIssues(entry, { state, judge: recordIssues })
    : issues
}

/** One table of all rules; where several steps speak about one kind, all of them are heard. */
function joined(...steps: readonly Rules[]): Rules {
  const all = new Map<string, Rule<Kind>[]>()
  for (const step of steps)
    for (const [kind, rules] of Object.entries(step))
      all.set(kind, [...(all.get(kind) ?? []), ...(rules as readonly Rule<Kind>[])])
  return Object.fromEntries(all)
}
