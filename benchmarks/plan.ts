// Planning a round over 2,000 outlets, and what a slider costs afterwards, beside drawing the same building.
import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { grid } from '@rillmark/casebook/building/marram-house.fixture.ts'
import { drawSystem } from '@rillmark/casebook/drawing/draw-scene.ts'
import { fitPlan, makePlan, preparePlan } from '@rillmark/casebook/plan/make-plan.ts'
import { PROCEDURES } from '@rillmark/casebook/procedures/procedures.ts'
import { type Measurement, medianMs } from './measure.ts'

export async function measure(): Promise<Measurement[]> {
  const input = {
    system: buildSystem(grid({ floors: 20, risers: 20, each: 5 })),
    procedures: PROCEDURES,
    budget: { samples: 400 },
  }
  const planMs = await medianMs(() => makePlan(input), 5)
  const drawMs = await medianMs(() => drawSystem(input.system, { detail: 'all' }), 5)
  const prepared = preparePlan(input)
  const sliderMs = await medianMs(() => fitPlan(prepared, { samples: 200 }))
  return [
    {
      what: 'plan 400 samples over 2,000 outlets',
      value: planMs,
      unit: 'ms',
      budget: 1000,
      ratio: { to: 'laying out the drawing of the same building', times: planMs / drawMs },
    },
    { what: 'change the budget of that plan', value: sliderMs, unit: 'ms', budget: 100 },
  ]
}
