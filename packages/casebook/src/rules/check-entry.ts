import { briefRules } from '../brief/rules.ts'
import { buildingRules } from '../building/rules.ts'
import { casesRules } from '../cases/rules.ts'
import { predictionRules } from '../conditions/prediction-rules.ts'
import { controlRules } from '../control/rules.ts'
import { custodyRules } from '../custody/rules.ts'
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
const RULES: Rules = {
  ...briefRules,
  ...casesRules,
  ...buildingRules,
  ...predictionRules,
  ...planRules,
  ...fieldworkRules,
  ...custodyRules,
  ...resultsRules,
  ...findingsRules,
  ...controlRules,
  ...followUpRules,
  ...reportRules,
}

/** Decides whether an entry may join a record with the given state. All issues at once; never throws on bad data. */
export function checkEntry(
  state: InvestigationState,
  candidate: unknown,
): { ok: true; entry: Entry } | { ok: false; issues: readonly Issue[] } {
  const parsed = parseEntry(candidate)
  if (!parsed.ok) return parsed
  const issues = objections(state, parsed.entry)
  return issues.length === 0 ? parsed : { ok: false, issues }
}

function objections(state: InvestigationState, entry: Entry): readonly Issue[] {
  if (entry.investigation !== state.investigation)
    return [issue('investigation', { expected: state.investigation, received: entry.investigation })]
  const amendment = amendmentIssues(entry, state)
  if (amendment.length > 0) return amendment
  const amends = entry.corrects === undefined ? undefined : state.record.firstOf.get(entry.corrects.entry)
  const rules = (RULES[entry.kind] ?? []) as readonly Rule<Kind>[]
  return rules.flatMap((rule) => rule(entry as Parameters<Rule<Kind>>[0], { state, amends }))
}
