import { buildGraph } from '../building/graph.ts'
import { returnLegs } from '../building/graph-questions.ts'
import type { WaterSystem } from '../building/water-system.ts'
import type { ConditionsOverrides } from '../conditions/overrides.ts'
import type { WhatIfChange } from '../conditions/what-if.ts'

/**
 * What is left of fitted values beside changes that are tried: a set point or a flow that is set by hand is as it is set, and what stood at
 * a part that is taken out goes with it.
 *
 * @param fitted from `fittedOverrides`
 */
export function fittedBeside(
  fitted: ConditionsOverrides,
  { system, changes }: { system: WaterSystem; changes: readonly WhatIfChange[] },
): ConditionsOverrides {
  const legs = returnLegs(buildGraph(system))
  const set = new Set(changes.flatMap((one) => (one.change === 'set-point' ? [one.component] : [])))
  const flows = new Map(
    changes.flatMap((one) =>
      one.change === 'loop-flow'
        ? (legs.find(({ pipes }) => pipes.includes(one.pipe))?.pipes ?? []).map((id) => [id, one.flowLPerMin] as const)
        : [],
    ),
  )
  const there = new Set(system.components.map(({ id }) => id))
  const { setpointC = {}, crossFlowLPerMin = {}, loopFlowLPerMin = {}, closedPipes = [], ...rest } = fitted
  // the factor of all returns would stretch a flow that was set by hand
  const byHand = [...flows].map(([id, flow]) => [id, flow / (fitted.loopFlowFactor ?? 1)] as const)
  return {
    ...rest,
    setpointC: kept(setpointC, (id) => !set.has(id)),
    crossFlowLPerMin: kept(crossFlowLPerMin, (id) => there.has(id)),
    loopFlowLPerMin: { ...kept(loopFlowLPerMin, (id) => !flows.has(id)), ...Object.fromEntries(byHand) },
    closedPipes: closedPipes.filter((id) => !flows.has(id)),
  }
}

const kept = (table: Readonly<Record<string, number>>, keeps: (id: string) => boolean): Record<string, number> =>
  Object.fromEntries(Object.entries(table).filter(([id]) => keeps(id)))
