import { fitPlan, preparePlan } from '@rillmark/casebook/plan/make-plan.ts'
import { labelLetters, labelPlan, labelsTaken } from '@rillmark/casebook/plan/label-plan.ts'
import { planInputFrom, pointsOfLastRound } from '@rillmark/casebook/plan/plan-input-from-state.ts'
import type { DemoDesk } from '../desk.ts'

/** Makes, labels and adopts the plan of a round. */
export function adoptPlan(
  desk: DemoDesk,
  round: { code: string; at: string; scheduledOn: string; samples: number },
): void {
  const budget = { samples: round.samples, teams: 2, hours: 6 }
  const input = planInputFrom(desk.state, {
    budget,
    asked: pointsOfLastRound(desk.state),
  })
  if (input === undefined) throw new Error('The example plans before the building is described')
  const taken = labelsTaken(desk.state)
  const letters = labelLetters({ title: 'Marram House', taken })
  const plan = labelPlan({ plan: fitPlan(preparePlan(input), budget), taken, letters })
  desk.write(
    'plan.adopted',
    {
      round: round.code,
      purpose: round.code === 'R1' ? 'initial' : 'follow-up',
      scheduledOn: round.scheduledOn,
      teams: ['Okoro', 'Vale'],
      plan,
    },
    { at: round.at },
  )
}
