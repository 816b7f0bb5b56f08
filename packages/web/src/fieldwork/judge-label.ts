import { visitKey } from '@rillmark/casebook/fieldwork/state.ts'
import { type StopAt, stopTitles } from '@rillmark/casebook/fieldwork/stops.ts'
import type { VisitPlan } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import { readLabel } from '@rillmark/casebook/label/label.ts'
import { labelsTaken } from '@rillmark/casebook/plan/label-plan.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { capital } from '@rillmark/casebook/units/capital.ts'

export type LabelJudged =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'right'; readonly label: string; readonly note?: string | undefined }
  | { readonly kind: 'wrong'; readonly why: string }

const WHOLE = 9

/** The label in hand, while it is typed: nothing is said until it could be whole; then whether it reads right and belongs here. */
export function judgeLabel(of: {
  typed: string
  expected: string | undefined
  plan: Pick<VisitPlan, 'stop'>
  state: InvestigationState
}): LabelJudged {
  const { typed, expected, state } = of
  const reading = readLabel(typed)
  if (reading.kind === 'issue')
    return [...typed.replaceAll(/[^0-9a-z]/gi, '')].length < WHOLE
      ? { kind: 'nothing' }
      : { kind: 'wrong', why: `${capital(reading.advice)}.` }
  const { id } = reading.label
  const collected = state.fieldwork.samples.get(id)
  if (collected !== undefined)
    return { kind: 'wrong', why: `${id} is already on a sample of ${placeOf(state, collected.body)}.` }
  if (expected !== undefined && id !== expected)
    return { kind: 'wrong', why: `${id} reads right, but this sample is planned as ${expected}. ${elsewhere(of, id)}` }
  if (expected === undefined && labelsTaken(state).has(id))
    return { kind: 'wrong', why: `${id} is planned for another sample.` }
  return { kind: 'right', label: id, note: reading.note }
}

/** A stop as a person knows it. */
function placeOf(state: InvestigationState, at: StopAt): string {
  const title = stopTitles(state).get(visitKey(at))
  return title === undefined ? `another stop, round ${at.round}` : `${title}, round ${at.round}`
}

function elsewhere({ plan, state }: Pick<Parameters<typeof judgeLabel>[0], 'plan' | 'state'>, id: string): string {
  if (plan.stop.samples.some(({ label }) => label === id)) return 'It is for the other container of this stop.'
  for (const { body } of state.plan.rounds.values())
    for (const stop of body.plan.stops)
      if (stop.samples.some(({ label }) => label === id)) return `It is for ${stop.title}.`
  return 'Look at the sheet of labels again.'
}
