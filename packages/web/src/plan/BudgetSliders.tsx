import { type ReactNode, useId } from 'react'
import type { BudgetChoice } from './kept-plan.ts'
import type { PlanDraft } from './plan-draft.ts'

/** Samples, teams, hours and minutes a point; the plan answers while the slider moves. */
export function BudgetSliders({ draft }: { readonly draft: PlanDraft }): ReactNode {
  const { budget, setBudget, most } = draft
  const set = (change: Partial<BudgetChoice>): void => setBudget({ ...budget, ...change })
  const minutes = budget.perPointMinutes
  return (
    <div className="sliders">
      <Slider
        label="Samples the laboratory takes"
        value={budget.samples}
        range={[0, most]}
        text={String(budget.samples)}
        onChange={(samples) => set({ samples })}
      />
      <Slider
        label="Teams"
        value={budget.teams}
        range={[1, 8]}
        text={String(budget.teams)}
        onChange={(teams) => set({ teams })}
      />
      <Slider
        label="Hours a team can work"
        value={budget.hours}
        range={[1, 16]}
        text={`${budget.hours} h`}
        onChange={(hours) => set({ hours })}
      />
      <Slider
        label="Minutes a point"
        value={minutes}
        range={[0, 40]}
        text={minutes === 0 ? 'by procedure' : `${minutes} min`}
        onChange={(perPointMinutes) => set({ perPointMinutes })}
      />
    </div>
  )
}

interface SliderProps {
  readonly label: string
  readonly value: number
  readonly range: readonly [number, number]
  readonly text: string
  readonly onChange: (value: number) => void
}

function Slider({ label, value, range, text, onChange }: SliderProps): ReactNode {
  const id = useId()
  return (
    <div className="slider">
      <label htmlFor={id}>{label}</label>
      <output htmlFor={id}>{text}</output>
      <input
        id={id}
        type="range"
        min={range[0]}
        max={range[1]}
        value={value}
        aria-valuetext={text}
        onChange={(event) => onChange(Number(event.target.value))}
      />
    </div>
  )
}
