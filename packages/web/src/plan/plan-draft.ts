import { fitPlan, preparePlan, type PreparedPlan } from '@rillmark/casebook/plan/make-plan.ts'
import type { Budget, Plan } from '@rillmark/casebook/plan/plan-file.ts'
import {
  nextRound,
  planInputFrom,
  pointsOfLastRound,
  samplesOfLastRound,
} from '@rillmark/casebook/plan/plan-input-from-state.ts'
import type { AskedPoint } from '@rillmark/casebook/plan/plan-input.ts'
import { useDeferredValue, useMemo } from 'react'
import { useInvestigation } from '../store/investigation.tsx'
import { type BudgetChoice, FIRST_WISHES, firstWishes, type PlanWishes, wishesText } from './kept-plan.ts'
import { useKeptPlan } from './use-kept-plan.ts'

export interface PlanDraft {
  readonly plan: Plan
  readonly budget: BudgetChoice
  readonly setBudget: (budget: BudgetChoice) => void
  /** the most samples any plan of this building could use, for the slider */
  readonly most: number
  readonly asked: readonly AskedPoint[]
  readonly excluded: readonly AskedPoint[]
  readonly add: (point: AskedPoint) => void
  readonly takeOut: (point: AskedPoint) => void
  /** takes back what was asked for or taken out */
  readonly undo: (component: string) => void
  /** starts again from nothing chosen */
  readonly drop: () => void
  /** whether the draft differs from the first, and whether this browser keeps it */
  readonly begun: boolean
  readonly kept: boolean
}

const budgetOf = ({ samples, teams, hours, perPointMinutes }: BudgetChoice): Budget => ({
  samples,
  teams,
  hours,
  ...(perPointMinutes === 0 ? {} : { perPointMinutes }),
})

/** The plan being made. The sliders answer at once: only fitting is done anew, and that after the slider has moved. */
export function usePlanDraft(): PlanDraft | undefined {
  const { state, version } = useInvestigation()
  const first = firstWishes(samplesOfLastRound(state))
  const draft = useKeptPlan(nextRound(state), first)
  const wishes = draft.wishes ?? first
  const { budget, asked, excluded } = wishes
  const prepared = useMemo((): PreparedPlan | undefined => {
    const out = new Set(excluded.map(({ component }) => component))
    const again = pointsOfLastRound(state).filter(({ component }) => !out.has(component))
    const wanted = {
      budget: budgetOf(FIRST_WISHES.budget),
      asked: [...again, ...asked],
      exclude: excluded,
    }
    const input = planInputFrom(state, wanted)
    return input === undefined ? undefined : preparePlan(input)
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  }, [version, asked, excluded])
  const settled = useDeferredValue(budget)
  const plan = useMemo(
    () => (prepared === undefined ? undefined : fitPlan(prepared, budgetOf(settled))),
    [prepared, settled],
  )
  const others = (component: string): PlanWishes => {
    const isOther = (point: AskedPoint): boolean => point.component !== component
    return { budget, asked: asked.filter(isOther), excluded: excluded.filter(isOther) }
  }
  if (draft.wishes === undefined || prepared === undefined || plan === undefined) return undefined
  return {
    plan,
    budget,
    setBudget: (chosen) => draft.set({ ...wishes, budget: chosen }),
    most: mostSamples(prepared),
    asked,
    excluded,
    add: (point) => draft.set({ ...others(point.component), asked: [...others(point.component).asked, point] }),
    takeOut: (point) =>
      draft.set({ ...others(point.component), excluded: [...others(point.component).excluded, point] }),
    undo: (component) => draft.set(others(component)),
    drop: draft.drop,
    begun: wishesText(wishes, first) !== undefined,
    kept: draft.kept,
  }
}

const SLIDER_SAMPLES = { least: 60, most: 400, step: 10 }

/** Twice what is obligatory is as far as a slider needs to go. */
function mostSamples({ obligatory }: PreparedPlan): number {
  const wanted = obligatory.reduce((sum, { samples }) => sum + samples.length, 0) * 2
  const rounded = Math.ceil(wanted / SLIDER_SAMPLES.step) * SLIDER_SAMPLES.step
  return Math.min(SLIDER_SAMPLES.most, Math.max(SLIDER_SAMPLES.least, rounded))
}
