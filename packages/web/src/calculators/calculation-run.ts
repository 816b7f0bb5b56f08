import { runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import type { Calculation, RunOptions } from '@rillmark/science/catalogue/descriptor.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type GroupDraft, valueOf } from '../form/draft.ts'
import type { NamedField } from '../form/field-spec.ts'
import type { SchemaFormProps } from '../form/SchemaForm.tsx'
import type { Worked } from './working.ts'

/** What a filled-in form comes to: the worked calculation, or what is still missing and what is wrong. */
export type FinishedRun =
  | { readonly kind: 'worked'; readonly worked: Worked }
  | { readonly kind: 'open'; readonly missing: readonly string[]; readonly wrong: readonly Issue[] }

/** A long run may still be under way, or have been stopped. */
export type Run =
  | FinishedRun
  | { readonly kind: 'running'; readonly fraction: number | undefined; readonly stop: () => void }
  | { readonly kind: 'stopped'; readonly failed: boolean; readonly again: () => void }

/** The input that stands in a form. */
export function givenBy(fields: readonly NamedField[], draft: GroupDraft): unknown {
  return valueOf({ kind: 'group', fields }, draft) ?? {}
}

/** What is wrong with the fields of a form, by their paths; nothing where one is merely missing. */
export function issuesIn(run: Run): Required<Pick<SchemaFormProps, 'issueAt' | 'issuesUnder'>> {
  const wrong = run.kind === 'open' ? run.wrong : []
  const placed = wrong.map(({ path, expected }) => ({ path, words: `Expected ${expected}.` }))
  return {
    issueAt: (path) => placed.find((each) => each.path === path)?.words,
    issuesUnder: (path) => placed.filter((each) => each.path === path || each.path.startsWith(`${path}.`)),
  }
}

/** Runs a calculation on what was given. */
export function runOf(calculation: Calculation, { given, progress }: RunOptions & { given: unknown }): FinishedRun {
  const answer = runCalculation({ id: calculation.id, input: given, progress })
  if ('issues' in answer) return openRun(answer.issues)
  const input = calculation.input.parse(given)
  // what is undefined is not part of a result that is copied or recorded
  const result = JSON.parse(JSON.stringify(answer.result)) as Worked['result']
  return { kind: 'worked', worked: { input: JSON.parse(JSON.stringify(input)) as Worked['input'], result } }
}

function openRun(issues: readonly Issue[]): FinishedRun {
  const missing = issues.filter(({ received }) => received === 'nothing').map(({ path }) => path)
  return { kind: 'open', missing, wrong: issues.filter(({ received }) => received !== 'nothing') }
}
