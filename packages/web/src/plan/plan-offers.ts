import { isOutlet, type WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Plan } from '@rillmark/casebook/plan/plan-file.ts'
import { PLANNING } from '@rillmark/casebook/plan/planning.ts'
import { supposedColonised } from '@rillmark/casebook/plan/scenarios.ts'
import type { Offer } from '../calculators/offer.ts'

/** What one asks of a plan, with this plan's own numbers filled in. */
export function planOffers(system: WaterSystem, plan: Plan): readonly Offer[] {
  const { sensitivity, level, localShare } = PLANNING
  const outlets = system.components.filter(isOutlet).length
  const building = outlets === 0 ? {} : { outlets }
  const sampled = Math.min(plan.totals.outlets, outlets)
  return [
    {
      id: 'detection-probability',
      question: 'How likely is a positive, if so many outlets were colonised?',
      start: { ...building, colonised: supposedColonised(outlets, localShare), sampled, sensitivity },
    },
    {
      id: 'outlets-to-sample',
      question: 'How many outlets must be sampled to find a given share colonised?',
      start: { ...building, designPrevalence: localShare, sensitivity, confidence: level },
    },
    {
      id: 'upper-bound-after-negatives',
      question: 'If none is positive, how many outlets could still be colonised?',
      start: { ...building, sampled, sensitivity, level },
    },
    {
      id: 'clearing-time',
      question: 'How long must an outlet run until the pipe is cleared?',
      start: system.supply.temperatureC > 0 ? { temperatureC: system.supply.temperatureC } : {},
    },
  ]
}
