import { fitPlan, preparePlan, type PreparedPlan } from '@rillmark/casebook/plan/make-plan.ts'
import type { Budget, Plan } from '@rillmark/casebook/plan/plan-file.ts'
import { planInputFrom, pointsOfLastRound } from '@rillmark/casebook/plan/plan-input-from-state.ts'
import type { AskedPoint } from '@rillmark/casebook/plan/plan-input.ts'
import { useCallback, useDeferredValue, useMemo, useState } from 'react'
import { useInvestigation } from '../store/investigation.tsx'

/** What the sliders say; 0 minutes a point means as the procedures say. */
export interface BudgetChoice {
  readonly samples: number
  readonly teams: number
  readonly hours: number
  readonly perPointMinutes: number
}

const FIRST_BUDGET: BudgetChoice = { samples: 40, teams: 2, hours: 8, perPointMinutes: 0 }

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
}

export const budgetOf = ({ samples, teams, hours, perPointMinutes }: BudgetChoice): Budget => ({
  samples,
  teams,
  hours,
  ...(perPointMinutes === 0 ? {} : { perPointMinutes }),
})

/** The plan being made. The sliders answer at once: only fitting is done anew, and that after the slider has moved. */
export function usePlanDraft(): PlanDraft | undefined {
  const { state, version } = useInvestigation()
  const [budget, setBudget] = useState(FIRST_BUDGET)
  const [asked, setAsked] = useState<readonly AskedPoint[]>([])
  const [excluded, setExcluded] = useState<readonly AskedPoint[]>([])
  const prepared = useMemo((): PreparedPlan | undefined => {
    const out = new Set(excluded.map(({ component }) => component))
    const again = pointsOfLastRound(state).filter(({ component }) => !out.has(component))
    const wishes = {
      budget: budgetOf(FIRST_BUDGET),
      asked: [...again, ...asked],
      exclude: excluded,
    }
    const input = planInputFrom(state, wishes)
    return input === undefined ? undefined : preparePlan(input)
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  }, [version, asked, excluded])
  const settled = useDeferredValue(budget)
  const plan = useMemo(
    () => (prepared === undefined ? undefined : fitPlan(prepared, budgetOf(settled))),
    [prepared, settled],
  )
  const without = useCallback((component: string) => (point: AskedPoint) => point.component !== component, [])
  if (prepared === undefined || plan === undefined) return undefined
  return {
    plan,
    budget,
    setBudget,
    most: mostSamples(prepared),
    asked,
    excluded,
    add: (point) => {
      setExcluded(excluded.filter(without(point.component)))
      setAsked([...asked.filter(without(point.component)), point])
    },
    takeOut: (point) => {
      setAsked(asked.filter(without(point.component)))
      setExcluded([...excluded.filter(without(point.component)), point])
    },
    undo: (component) => {
      setAsked(asked.filter(without(component)))
      setExcluded(excluded.filter(without(component)))
    },
  }
}

const SLIDER_SAMPLES = { least: 60, most: 400, step: 10 }

/** Twice what is obligatory is as far as a slider needs to go. */
function mostSamples({ obligatory }: PreparedPlan): number {
  const wanted = obligatory.reduce((sum, { samples }) => sum + samples.length, 0) * 2
  const rounded = Math.ceil(wanted / SLIDER_SAMPLES.step) * SLIDER_SAMPLES.step
  return Math.min(SLIDER_SAMPLES.most, Math.max(SLIDER_SAMPLES.least, rounded))
}
