import { teamView } from '@rillmark/casebook/fieldwork/team-view.ts'
import type { GuidedStep, VisitPlan } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'

/** What a note asks for and the record already knows: which sample a duplicate repeats, where a blank was opened. Empty where it knows nothing. */
export function noteOffered(
  state: InvestigationState,
  of: { step: GuidedStep; plan: VisitPlan; round: string; device: string },
): string {
  const { step, plan } = of
  if (step.step.kind !== 'note') return ''
  if (step.procedure === 'duplicate') {
    const repeats = plan.stop.samples.find(({ sampleKind }) => sampleKind === 'duplicate')?.repeats
    return repeats === undefined ? '' : `Repeats ${repeats}.`
  }
  if (step.procedure !== 'field-blank') return ''
  const mine = teamView(state, of.round).hands.flatMap(({ hand, work }) => (hand.device === of.device ? work : []))
  const last = mine
    .filter(({ stop }) => stop !== plan.stop.id)
    .toSorted((a, b) => Date.parse(a.to) - Date.parse(b.to))
    .at(-1)
  return last === undefined ? '' : `Opened at ${last.title}. Lot of the sterile water: `
}
