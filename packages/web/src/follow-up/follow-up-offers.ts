import { type FollowUpView, scheduleAskedOn } from '@rillmark/casebook/follow-up/follow-up-view.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { Offer } from '../calculators/offer.ts'

/** What one asks of the rounds, with the rule, the dates and the negatives of the record filled in. */
export function followUpOffers(
  state: InvestigationState,
  { view, today }: { view: FollowUpView; today: string },
): readonly Offer[] {
  return [
    {
      id: 'follow-up-dates',
      question: 'When are samples due, and what if a round is late or positive?',
      start: datesStart(state, today),
    },
    {
      id: 'upper-bound-after-negatives',
      question: 'After these negatives, how many outlets could still be colonised?',
      start: upperBoundFigures(view.couldMiss),
    },
  ]
}

function datesStart(state: InvestigationState, today: string): object {
  const asked = scheduleAskedOn(state, today)
  if (asked === undefined) return { today }
  const { samplings, ...rest } = asked
  return { ...rest, results: samplings }
}

/** What the upper bound the screen tells was worked out from. */
export function upperBoundFigures(couldMiss: FollowUpView['couldMiss']): object {
  if (couldMiss === undefined) return {}
  const { outlets, sampled, sensitivity, level } = couldMiss
  return { outlets, sampled, sensitivity, level }
}
