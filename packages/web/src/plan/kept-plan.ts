import { askedPointSchema } from '@rillmark/casebook/plan/plan-input.ts'
import * as z from 'zod'

const choice = z.number().min(0).max(10_000)

const keptPlanSchema = z.strictObject({
  budget: z.strictObject({ samples: choice, teams: choice, hours: choice, perPointMinutes: choice }),
  asked: z.array(askedPointSchema).max(5000),
  excluded: z.array(askedPointSchema).max(5000),
})

/** What a person chose for a plan not yet adopted: the budget, the points asked for and those taken out. */
export type PlanWishes = Readonly<z.infer<typeof keptPlanSchema>>

/** What the sliders say; 0 minutes a point means as the procedures say. */
export type BudgetChoice = PlanWishes['budget']

export const FIRST_WISHES: PlanWishes = {
  budget: { samples: 40, teams: 2, hours: 8, perPointMinutes: 0 },
  asked: [],
  excluded: [],
}

/** The choice a draft begins with: a round that follows another has room for what that one sampled. */
export function firstWishes(samplesBefore: number): PlanWishes {
  const { budget } = FIRST_WISHES
  return { ...FIRST_WISHES, budget: { ...budget, samples: Math.max(budget.samples, samplesBefore) } }
}

/** Wishes as they were kept. Anything unreadable counts as nothing kept; points the building no longer has are left out. */
export function readWishes(
  text: string | undefined,
  { components, first }: { readonly components: ReadonlySet<string>; readonly first: PlanWishes },
): PlanWishes {
  const known = ({ component }: { component: string }): boolean => components.has(component)
  const parsed = keptPlanSchema.safeParse(jsonOf(text))
  if (!parsed.success) return first
  const { budget, asked, excluded } = parsed.data
  return { budget, asked: asked.filter(known), excluded: excluded.filter(known) }
}

/** As text to keep; undefined where nothing was chosen yet. */
export function wishesText(wishes: PlanWishes, first: PlanWishes): string | undefined {
  const text = JSON.stringify(wishes)
  return text === JSON.stringify(first) ? undefined : text
}

function jsonOf(text: string | undefined): unknown {
  try {
    return text === undefined ? undefined : JSON.parse(text)
  } catch {
    return undefined
  }
}
