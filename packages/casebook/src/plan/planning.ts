import planning from '@rillmark/reference/plan/planning.json' with { type: 'json' }
import type { Reason } from './plan-file.ts'

/** What the planner supposes; each figure's source is in `reference/plan/planning.json`. */
export const PLANNING = {
  samplesPerBlank: planning.quality.samplesPerBlank.value,
  blankFromSamples: planning.quality.blankFromSamples.value,
  samplesPerDuplicate: planning.quality.samplesPerDuplicate.value,
  controls: planning.choice.controls.value,
  perSharedPlace: planning.choice.perSharedPlace.value,
  lowUsePerRiser: planning.choice.lowUsePerRiser.value,
  perPredictedList: planning.choice.perPredictedList.value,
  perWorks: planning.choice.perWorks.value,
  lowUseBelowPerDay: planning.choice.lowUseBelowPerDay.value,
  worksWithinDays: planning.choice.worksWithinDays.value,
  sensitivity: planning.supposed.sensitivity.value,
  level: planning.supposed.level.value,
  localShare: planning.supposed.localShare.value,
  riserShare: planning.supposed.riserShare.value,
  hotShare: planning.supposed.hotShare.value,
  coldShare: planning.supposed.coldShare.value,
  minutesBetween: planning.minutes.between.value,
  minutesOtherwise: planning.minutes.otherwise.value,
} as const

/** 1 = dropped last; larger = dropped earlier when the budget is short. */
export const rankOf = (obligation: Reason['obligation']): number => planning.ranks[obligation]
